package chart_test

import (
	"bytes"
	"fmt"
	"os"

	"earshot/report"
	"earshot/report/chart"
	"earshot/report/chart/paper"
)

// The chart of a record: what it shows, worked out apart from any paper, and the picture.
func Example() {
	f, err := os.Open("../write/testdata/sitting.json")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer f.Close()
	d, err := report.Read(f)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range chart.New(d).Columns {
		fmt.Printf("%s: firings %d, %v\n", c.Marked, len(c.Points), c.Verdict)
	}
	var picture bytes.Buffer
	if err := chart.Write(&picture, d, paper.SVG); err != nil {
		fmt.Println(err)
	}
	fmt.Printf("%s\n", picture.Bytes()[:5])
	// Output:
	// 1 s: firings 3, good
	// 1/2 s: firings 3, service advised
	// 1/8 s: firings 1, not judged
	// <?xml
}
