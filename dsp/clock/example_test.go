package clock_test

import (
	"fmt"

	"earshot/dsp/clock"
)

// Five minutes of a clock that ticks every second, by a recorder 20 ppm fast: to it the
// seconds are longer. One tick was not heard, and something fell.
func ExampleOf() {
	var onsets []float64
	for i := range 300 {
		if i == 100 {
			continue
		}
		tick := 0.7 + float64(i)*1.00002 + float64(i%3-1)*1e-4 // to 0.1 ms
		onsets = append(onsets, tick)
		if i == 200 {
			onsets = append(onsets, tick+0.3)
		}
	}
	rate, err := clock.Of(onsets, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%+.1f ppm by %d ticks, %d missed, %d other sounds\n", rate.PPM, rate.Ticks, rate.Missed, rate.Others)
	// Output:
	// +20.0 ppm by 299 ticks, 1 missed, 1 other sounds
}
