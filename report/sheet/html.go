package sheet

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"

	"earshot/report/chart"
	"earshot/report/chart/paper"
	"earshot/report/words"
)

//go:embed sheet.html
var page string

var pageTemplate = template.Must(template.New("sheet").Parse(page))

// headings name the columns of the table.
var headings = []string{"marked", "exact", "measured", "off the mark", "95 % sure within", "spread", "firings", "verdict"}

// WriteHTML writes the sheet as one page that asks for nothing from elsewhere.
func WriteHTML(w io.Writer, s Sheet) error {
	var drawn, b bytes.Buffer
	if err := chart.WriteBare(&drawn, s.Record, paper.SVG); err != nil {
		return err
	}
	content := struct {
		Sheet
		Headings     []string
		Chart, Heard template.URL
	}{s, headings, inline("image/svg+xml", drawn.Bytes()), ""}
	if s.Strip != nil {
		content.Heard = inline("image/png", s.Strip)
	}
	if err := pageTemplate.Execute(&b, content); err != nil {
		return fmt.Errorf("writing the sheet: %w", err)
	}
	_, err := io.WriteString(w, words.Visible(b.String()))
	return err
}

// inline is a picture as an address that holds it.
func inline(kind string, picture []byte) template.URL {
	return template.URL("data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(picture))
}
