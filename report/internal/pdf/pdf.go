// Package pdf begins the PDFs of a report alike: A4, the same bytes from the same
// record, and letters of any script that the fonts within the program hold.
package pdf

import (
	"time"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
)

// The ways a page lies.
const (
	Portrait  = "P"
	Landscape = "L"
)

// New is a document without a page, whose font "sans" is there in its regular style.
// Made is its date; the zero time stands for the beginning of 1970, never for now.
func New(way string, made time.Time, version, title string) *fpdf.Fpdf {
	p := fpdf.New(way, "mm", "A4", "")
	p.SetCatalogSort(true)
	if made.IsZero() {
		made = time.Unix(0, 0).UTC() // else the present time is taken
	}
	p.SetCreationDate(made)
	p.SetModificationDate(made)
	p.SetTitle(title, true)
	p.SetCreator("earshot "+version, true)
	p.AddUTF8FontFromBytes("sans", "", liberationsansregular.TTF)
	return p
}
