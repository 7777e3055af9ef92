package labels_test

import (
	"fmt"
	"strings"

	"earshot/report/labels"
)

// Two firings as a person set them in a sound editor; the second never closed.
func ExampleRead() {
	track, err := labels.Read(strings.NewReader("2.000000\t3.010000\t1, firing 1\n6.250000\t6.250000\tnever closed\n"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, m := range track.Marks() {
		fmt.Printf("%+v %q\n", track.Times()[i], m.Label)
	}
	// Output:
	// {Open:2 Close:3.01 Closed:true} "1"
	// {Open:6.25 Close:0 Closed:false} ""
}
