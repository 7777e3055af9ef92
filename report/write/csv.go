package write

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"earshot/report"
	"earshot/report/words"
)

var columns = []string{
	"lens", "serial", "clip", "firing", "marked", "nominal_s", "assumed", "open_s", "close_s", "duration_s", "u_s",
	"deviation_stops", "judged", "reason", "symptoms", "speed_n", "speed_mean_s", "speed_deviation_stops", "speed_median_stops",
	"speed_sd_stops", "speed_spread_stops", "speed_u95_stops", "speed_verdict", "shutter_verdict", "sha256", "timed_by",
}

// CSV writes one row a firing, under a row of headings, so that no firing is
// hidden behind a mean; the figures of its speed stand on each of its rows. Where a
// speed was told and no firing lies at it, a row without a firing says so. What is
// null in the document is an empty cell. Firings are numbered from 1, as in the text. Marks carry their unit ("1/30 s"), since a
// spreadsheet takes a bare 1/30 for a date, and text that looks like a formula has
// an apostrophe before it.
func CSV(w io.Writer, d report.Document) error {
	c := csv.NewWriter(w)
	rows := append([][]string{columns}, csvRows(d)...)
	if err := c.WriteAll(rows); err != nil {
		return fmt.Errorf("writing CSV: %w", err)
	}
	return nil
}

func csvRows(d report.Document) [][]string {
	speedOf := make(map[int]report.Speed)
	var bare [][]string
	for _, s := range d.Speeds {
		for _, i := range s.Firings {
			speedOf[i] = s
		}
		if len(s.Firings) == 0 {
			bare = append(bare, csvRow(d, noFiring(s), s, "", ""))
		}
	}
	var rows [][]string
	for i, f := range d.Firings {
		clip := d.Clips[f.Clip]
		rows = append(rows, csvRow(d, []string{
			words.Cell(clip.File), strconv.Itoa(i + 1), markCell(f.Marked), words.Number(f.Nominal), yes(f.Assumed), words.Number(&f.Open), words.Number(f.Close),
			words.Number(f.Duration), words.Number(f.U), words.Number(f.Deviation), yes(f.Judged), words.Cell(f.Reason), words.Cell(strings.Join(f.Symptoms, "; ")),
		}, speedOf[i], clip.SHA256, f.Edge))
	}
	return append(rows, bare...)
}

// noFiring is the part of a row that tells of a firing, for a speed without one.
func noFiring(s report.Speed) []string {
	return []string{"", "", markCell(&s.Marked), words.Number(&s.Nominal), yes(s.Assumed), "", "", "", "", "", "", words.Cell(s.Why), ""}
}

// csvRow is the row of a firing at a speed. Its clip's checksum and what it was timed by
// are missing where there is no firing.
func csvRow(d report.Document, firing []string, s report.Speed, sha256, edge string) []string {
	row := append([]string{words.Cell(d.Lens.Name), words.Cell(d.Lens.Serial)}, firing...)
	n := ""
	if s.Marked != "" {
		n = strconv.Itoa(s.N)
	}
	row = append(row, n, words.Number(s.Mean), words.Number(s.Deviation), words.Number(s.Median), words.Number(s.SD), words.Number(s.Spread), words.Number(s.U95), verdictCell(s), d.Verdict.String())
	return append(row, words.Cell(sha256), words.Cell(edge))
}

func markCell(marked *string) string {
	if marked == nil {
		return ""
	}
	return words.Cell(words.Mark(*marked))
}

func verdictCell(s report.Speed) string {
	if s.Marked == "" {
		return ""
	}
	return s.Verdict.String()
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
