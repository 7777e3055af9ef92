package drawer_test

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"earshot/report"
	"earshot/report/drawer"
	"earshot/shutter"
)

const plainList = `lens,serial,clip,speeds,shutter,rested,temperature_c,note,Shelf
Förvane 105 mm,1042,corvane.wav,1x3 1/2,focal-plane,90d,18.5,"dusty, from an ""estate""",upper
Tamberlin 80,,box,,,,,,
`

func wantRows(t *testing.T) []drawer.Row {
	t.Helper()
	steps, err := shutter.ParseSteps("1x3 1/2")
	if err != nil {
		t.Fatal(err)
	}
	warm := 18.5
	return []drawer.Row{
		{Line: 2, Lens: report.Lens{Name: "Förvane 105 mm", Serial: "1042", Note: `dusty, from an "estate"`, Rested: "90d", Temperature: &warm, Shutter: "focal-plane"}, Clip: "corvane.wav", Steps: steps, Extra: []string{"upper"}},
		{Line: 3, Lens: report.Lens{Name: "Tamberlin 80"}, Clip: "box", Extra: []string{""}},
	}
}

func TestAListIsReadHoweverTheSpreadsheetWroteIt(t *testing.T) {
	encoded := func(s string, e interface{ String(string) (string, error) }) string {
		out, err := e.String(s)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	semicolons := "lens;serial;clip;speeds;shutter;rested;temperature_c;note;Shelf\r\nFörvane 105 mm;1042;corvane.wav;1x3 1/2;focal-plane;90d;18,5;\"dusty, from an \"\"estate\"\"\";upper\r\nTamberlin 80;;box;;;;;;\r\n"
	tabs := strings.ReplaceAll(semicolons, ";", "\t")
	for name, file := range map[string]string{
		"as it stands":                         plainList,
		"with a byte order mark":               "\ufeff" + plainList,
		"with CRLF":                            strings.ReplaceAll(plainList, "\n", "\r\n"),
		"with CR alone":                        strings.ReplaceAll(plainList, "\n", "\r"),
		"with semicolons and a decimal comma":  semicolons,
		"with tabs":                            tabs,
		"in Latin-1":                           encoded(plainList, charmap.ISO8859_1.NewEncoder()),
		"in UTF-16 little-endian with a mark":  encoded(tabs, unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder()),
		"in UTF-16 big-endian with a mark":     encoded(tabs, unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder()),
		"without the last line end":            strings.TrimSuffix(plainList, "\n"),
		"with lines of separators at the end":  plainList + ",,,,,,,,\n,,,,,,,,\n",
		"with every field in quotes and space": strings.Replace(plainList, "Förvane 105 mm,1042,", "\" Förvane 105 mm \",\" 1042\",", 1),
		"with capitals in its headings":        strings.Replace(plainList, "lens,serial,clip", "Lens,SERIAL, Clip ", 1),
		"with a fraction as one sign":          strings.Replace(plainList, "1x3 1/2", "1×3 ½", 1),
		"with a unit behind the temperature":   strings.Replace(plainList, "18.5", "18.5 °C", 1),
		"with a space in the kind of shutter":  strings.Replace(plainList, "focal-plane", "Focal plane", 1),
	} {
		got, problems := drawer.Read([]byte(file))
		if len(problems) > 0 {
			t.Errorf("%s: %v", name, problems)
		}
		if d := cmp.Diff(drawer.List{Rows: wantRows(t), Extra: []string{"Shelf"}}, got, cmpopts.IgnoreUnexported(drawer.Row{})); d != "" {
			t.Errorf("%s: (-want +got)\n%s", name, d)
		}
	}
}

// What spreadsheets show of a typed 1/N was found out in none of them: the ways are
// those of their date formats in English, German and French (from memory).
func TestADateMadeOfASpeedIsRefusedWithTheSpeed(t *testing.T) {
	for date, speed := range map[string]string{
		"30-Jan": "1/30s", "2-Jan": "1/2s", "Jan-30": "1/30s", "Jan-60": "1/60s", "1/30/2026": "1/30s", "30/01/2026": "1/30s", "2026-01-30": "1/30s",
		"2026-01-30 00:00:00": "1/30s", "01.02.2026": "1/2s", "02/01/2026": "1/2s", "01. Aug": "1/8s", "1-Aug": "1/8s", "Jan 15": "1/15s", "Jan 2015": "1/15s",
		"01. Mär": "1/3s", "30. Januar": "1/30s", "janv-30": "1/30s", "30-janv.": "1/30s", "01. Okt": "1/10s", "15 Jan": "1/15s", "46052": "the speed anew",
		"3-Feb": "the speed anew",
	} {
		_, problems := drawer.Read([]byte("lens;clip;speeds\nCorvane;a.wav;" + date + "\n"))
		if len(problems) != 1 || problems[0].Line != 2 || problems[0].Column != "speeds (C)" || !strings.Contains(problems[0].Message, "write "+speed) {
			t.Errorf("%q: %v, want to be told to write %s", date, problems, speed)
		}
	}
	for _, speeds := range []string{"1/30", "30", "2s", "0.5s", "1x3 1/2x3", "1/30s", "1, 1/2, 1/4", "1; 1/2", "500"} {
		if _, problems := drawer.Read([]byte("lens\tclip\tspeeds\nCorvane\ta.wav\t" + speeds + "\n")); len(problems) > 0 {
			t.Errorf("%q is a speed, and not: %v", speeds, problems)
		}
	}
}

func TestWhatIsWrongInAListIsToldByLineAndColumn(t *testing.T) {
	for _, c := range []struct {
		name, file string
		want       []string
	}{
		{"an empty file", "", []string{"the list is empty: "}},
		{"the spreadsheet's own file", "PK\x03\x04\x00", []string{"this is the spreadsheet's own file, not CSV: save it from the spreadsheet as CSV (UTF-8)"}},
		{"bytes that are no text", "lens,clip\n\x00\x01,a\n", []string{"it holds bytes that are no text: "}},
		{"no headings", "Corvane,a.wav\n", []string{`line 1: no column "lens": `}},
		{"no column of clips", "lens,serial\nCorvane,1\n", []string{`line 1: no column "clip": `}},
		{"a heading misspelt", "lens,clip,speed\nCorvane,a.wav,1\n", []string{"line 1, column speed (C): not known, and there is no column speeds: "}},
		{"a heading twice", "lens,clip,Lens\nCorvane,a.wav,x\n", []string{"line 1, column Lens (C): there are two columns of this name: "}},
		{"a field too many", "lens,clip\nCorvane,a.wav,dusty\n", []string{"line 2: 3 fields, and the first line names 2: "}},
		{"a quote that stands alone", "lens,clip\nCor\"vane,a.wav\n", []string{"line 2: a double quote stands alone: "}},
		{"a serial number shortened", "lens,clip,serial\nCorvane,a.wav,1.04E+06\n", []string{`line 2, column serial (C): "1.04E+06" is a number that the spreadsheet shortened: `}},
		{"a kind of shutter not known", "lens,clip,shutter\nCorvane,a.wav,guillotine\n", []string{"line 2, column shutter (C): no such kind of shutter: "}},
		{"a rest without a unit", "lens,clip,rested\nCorvane,a.wav,long\n", []string{`line 2, column rested (C): "long": write a whole number of hours, `}},
		{"a temperature no lens has", "lens,clip,temperature_c\nCorvane,a.wav,180\n", []string{`line 2, column temperature_c (C): "180": no lens is that warm`}},
		{"a temperature that is no number", "lens,clip,temperature_c\nCorvane,a.wav,NaN\n", []string{`line 2, column temperature_c (C): "NaN": no lens is that warm`}},
		{"a speed not understood", "lens,clip,speeds\nCorvane,a.wav,1 1/two\n", []string{`line 2, column speeds (C): speed 2, "1/two": `}},
		{"everything at once, behind a field of two lines", "lens,clip,note,rested\nCorvane,a.wav,\"two\nlines\",\n,b.wav,,\nTamberlin,,,soon\n", []string{
			"line 4, column lens (A): no lens is named", "line 5, column clip (B): no clip is named", `line 5, column rested (D): "soon"`,
		}},
	} {
		_, problems := drawer.Read([]byte(c.file))
		if len(problems) != len(c.want) {
			t.Errorf("%s: %v, want %d problems", c.name, problems, len(c.want))
			continue
		}
		for i, p := range problems {
			if !strings.HasPrefix(p.Error(), c.want[i]) {
				t.Errorf("%s: %q, want %q", c.name, p.Error(), c.want[i])
			}
		}
	}
}

func TestLinesOfOneLensAreJoined(t *testing.T) {
	const list = `lens,serial,clip,speeds,rested,note,sitting,shelf,Fast speeds,observed_by
Corvane,1,a.wav,1x3,90d,,,upper,,R. Marrable
corvane,1,b.wav,1/2x3 1/4x3,,dusty,,,all seen to open,
Corvane,2,c.wav,,,,,,,
Corvane,1,d.wav,,,,after service,lower,,
`
	read, problems := drawer.Read([]byte(list))
	lenses, wrong := read.Lenses()
	if len(problems)+len(wrong) > 0 || len(lenses) != 3 {
		t.Fatalf("%d lenses, problems %v, %v", len(lenses), problems, wrong)
	}
	first := lenses[0]
	if got := shutter.FormatSteps(first.Steps); got != "1x3 1/2x3 1/4x3" || first.Rested != "90d" || first.Note != "dusty" || len(first.Clips) != 2 || first.Extra[0] != "upper" {
		t.Errorf("steps %s, %+v", got, first)
	}
	if seen, by := first.Observed(); by != "R. Marrable" || len(seen) != 1 || seen[0] != (report.Observation{What: "fast speeds", Seen: "all seen to open"}) {
		t.Errorf("seen %v by %q", seen, by)
	}
	if lenses[2].Title() != "Corvane, no. 1, after service" {
		t.Errorf("the third is %q", lenses[2].Title())
	}
}

func TestLinesOfOneLensThatDisagreeAreTold(t *testing.T) {
	list := `lens,clip,speeds,shutter,rested,temperature_c,note
Corvane,a.wav,1x3,leaf,90d,18,dusty
Corvane,b.wav,,focal-plane,2d,19,clean
Tamberlin,c.wav,` + tooMany + `,,,,
Tamberlin,d.wav,1x3,,,,
`
	read, problems := drawer.Read([]byte(list))
	_, wrong := read.Lenses()
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var got []string
	for _, p := range wrong {
		got = append(got, strings.Join(strings.Fields(p.Error())[:4], " "))
	}
	want := []string{"line 3, column rested:", "line 3, column note:", "line 3, column shutter:", "line 3, column temperature_c:", "line 3, column speeds:", "line 4, column speeds:"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

// tooMany is as many settings as can be told of one lens; one more is too many.
var tooMany = strings.TrimSuffix(strings.Repeat("1x3 ", 64), " ")

func FuzzRead(f *testing.F) {
	for _, s := range []string{plainList, "\ufeff" + plainList, "lens;clip\n\"a", "lens,clip,speeds\na,b,30-Jan\n", "\xff\xfel\x00", "PK\x03\x04"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		list, problems := drawer.Read(file)
		lenses, wrong := list.Lenses()
		for _, p := range append(problems, wrong...) {
			if p.Message == "" || p.Line < 0 || p.Line > 1+bytes.Count(file, []byte("\n"))+bytes.Count(file, []byte("\r")) {
				t.Errorf("problem %+v", p)
			}
		}
		clips := 0
		for _, l := range lenses {
			clips += len(l.Clips)
			if l.Lens.Name == "" || !utf8.ValidString(l.Title()) || len(l.Extra) != len(list.Extra) {
				t.Errorf("a lens %+v of a list with %d further columns", l, len(list.Extra))
			}
		}
		if clips != len(list.Rows) {
			t.Errorf("%d clips of %d rows", clips, len(list.Rows))
		}
	})
}
