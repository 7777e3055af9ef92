package describe

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"earshot/dsp"
	"earshot/dsp/internal/num"
)

// Column is what a short part of a clip looks like on paper, conditioned as for
// detection: between which sample values it swings, as fractions of full scale, and
// its level.
type Column struct {
	Min, Max float64
	Level    float64 // dBFS: RMS of the column, or of outlineTime up to its end where that is longer
}

// outlineTime is the shortest time over which the level of a column is taken, s:
// less would draw single swings.
const outlineTime = 0.001

// outlineBlock is how many samples are held of a clip at a time while it is outlined,
// unless one column has more.
const outlineBlock = 1 << 15

// Outline draws one channel between two instants, in samples, as n columns of equal
// width, n at least 1. Parts before the start or after the end of the clip are
// silent. It holds a block of samples at a time, however long the stretch. It returns
// the error of src, wrapped.
func Outline(src dsp.Source, channel int, from, to float64, n int) ([]Column, error) {
	at := func(k int) int64 { return int64(math.Floor(from + (to-from)*float64(k)/float64(n))) }
	end := func(k int) int64 { return max(at(k+1), at(k)+1) } // where samples are fewer than columns, one is in several
	columns, power := make([]Column, n), make([]float64, n)
	for k := 0; k < n; {
		first, last := at(k), k
		for last+1 < n && end(last+1)-first <= outlineBlock {
			last++
		}
		x, err := dsp.Excerpt(src, channel, first, int(end(last)-first))
		if err != nil {
			return nil, fmt.Errorf("outline: %w", err)
		}
		for ; k <= last; k++ {
			part := x[at(k)-first : end(k)-first]
			columns[k].Min, columns[k].Max = slices.Min(part), slices.Max(part)
			power[k] = num.MeanSquare(part)
		}
	}
	reach := int(math.Round(outlineTime * float64(src.Format().Rate) * float64(n) / (to - from)))
	for k := range columns {
		columns[k].Level = num.Level(stat.Mean(power[max(0, k+1-max(1, reach)):k+1], nil))
	}
	return columns, nil
}
