package drawer

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"earshot/report"
	"earshot/shutter"
)

// Row is one line of a list: a clip and what was told of it and its lens.
type Row struct {
	Line          int
	Lens          report.Lens
	Sitting, Clip string
	Steps         []shutter.Step    // the settings told, in the order fired; nil where none were
	Seen          map[string]string // what a person saw, by column
	Extra         []string          // beside List.Extra
	misread       bool              // there is a problem with one of its fields
}

// row reads a line and says what is wrong with each of its fields.
func (h head) row(r record) (row Row, problems []Problem) {
	row = Row{Line: r.line}
	if r.blank() {
		return row, nil
	}
	for i := range h.names {
		value := ""
		if i < len(r.fields) {
			value = r.fields[i]
		}
		if h.place[i] < 0 {
			if h.names[i] != "" {
				row.Extra = append(row.Extra, value)
			}
			continue
		}
		if err := row.set(columns[h.place[i]], value); err != nil {
			row.misread = true
			problems = append(problems, Problem{r.line, named(h.names[i], i), err.Error()})
		}
	}
	for i := len(h.names); i < len(r.fields); i++ {
		if r.fields[i] != "" {
			return row, append(problems, Problem{Line: r.line, Message: fmt.Sprintf("%d fields, and the first line names %d: a text that holds the separator stands in double quotes", len(r.fields), len(h.names))})
		}
	}
	return row, problems
}

// shortened is a number the spreadsheet wrote with an exponent.
var shortened = regexp.MustCompile(`^[0-9]([.,][0-9]+)?[eE]\+?[0-9]+$`)

// empty says what is wrong with an empty field of a column.
func empty(column string) error {
	switch column {
	case "lens":
		return errors.New("no lens is named: name it in every line")
	case "clip":
		return errors.New("no clip is named: write the name of its file, or of the folder that holds the clips of this lens")
	}
	return nil
}

// set reads one field into the row.
func (r *Row) set(column, value string) error {
	if value == "" {
		return empty(column)
	}
	switch column {
	case "lens":
		r.Lens.Name = value
	case "serial":
		return r.setSerial(value)
	case "clip":
		r.Clip = value
	case "note":
		r.Lens.Note = value
	case "sitting":
		r.Sitting = value
	case "speeds":
		return r.setSpeeds(value)
	case "shutter":
		kind, err := shutter.ParseKind(strings.ReplaceAll(strings.ToLower(value), " ", "-"))
		r.Lens.Shutter = string(kind)
		return err
	case "rested":
		r.Lens.Rested = strings.ToLower(strings.ReplaceAll(value, " ", ""))
		if err := report.CheckRested(r.Lens.Rested); err != nil {
			return fmt.Errorf("%q: %w", value, err)
		}
	case "temperature_c":
		return r.setTemperature(value)
	default:
		if r.Seen == nil {
			r.Seen = map[string]string{}
		}
		r.Seen[column] = value
	}
	return nil
}

func (r *Row) setSerial(value string) error {
	if shortened.MatchString(value) {
		return fmt.Errorf("%q is a number that the spreadsheet shortened: make the column one of text and write the serial number in full", value)
	}
	r.Lens.Serial = value
	return nil
}

func (r *Row) setSpeeds(value string) (err error) {
	if speed := datedSpeed(value); speed != "" {
		return fmt.Errorf("%q is what the spreadsheet made of a speed, taking it for a date: write %s", value, speed)
	}
	r.Steps, err = shutter.ParseSteps(value)
	return err
}

func (r *Row) setTemperature(value string) error {
	digits := strings.TrimSpace(strings.TrimRight(value, "°Cc "))
	t, err := strconv.ParseFloat(strings.Replace(digits, ",", ".", 1), 64)
	if err != nil {
		return fmt.Errorf("%q is no number: write the temperature in °C, as in 18", value)
	}
	r.Lens.Temperature = &t
	if err := report.CheckTemperature(t); err != nil {
		return fmt.Errorf("%q: %w", value, err)
	}
	return nil
}
