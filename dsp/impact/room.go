package impact

import "math"

const soundSpeed = 343 // m/s

// point is a place in a room, m from its corner.
type point [3]float64

func (p point) to(q point) float64 {
	return math.Hypot(math.Hypot(p[0]-q[0], p[1]-q[1]), p[2]-q[2])
}

// room is a box whose walls reflect.
type room struct {
	size  point
	rt    float64 // s until sound has fallen by 60 dB
	dull  float64 // share of what is above 3 kHz that a wall takes besides, 0 to 1
	table float64 // share of the sound that the table reflects
	phone point
}

// room draws a room whose reverberation lies between two limits, in s.
func (d dice) room(low, high float64) room {
	r := room{rt: d.ratio(low, high), dull: d.in(0.03, 0.3), table: d.in(0.2, 0.8)}
	scale := math.Pow(r.rt/0.3, 0.7)
	r.size = point{d.in(3, 5.5) * scale, d.in(2.4, 4.5) * scale, d.in(2.3, 2.9) * max(1, scale)}
	for i := range r.size {
		r.size[i] = max(r.size[i], 2)
	}
	r.phone = point{r.size[0] * d.in(0.3, 0.7), r.size[1] * d.in(0.3, 0.7), 0.78}
	return r
}

// near draws a place so many m from the phone, inside the room.
func (r room) near(d dice, far float64) point {
	a, up := d.in(0, 2*math.Pi), d.in(0.03, 0.25)*far
	flat := math.Sqrt(far*far - up*up)
	p := point{r.phone[0] + flat*math.Cos(a), r.phone[1] + flat*math.Sin(a), r.phone[2] + up}
	for i := range p {
		p[i] = min(max(p[i], 0.1), r.size[i]-0.1)
	}
	return p
}

// response returns the sound at the phone of a click at a place. Its first sample is the
// sound that comes straight, and has magnitude 1.
func (r room) response(d dice, from point, rate float64) []float64 {
	n := int(min(r.rt, 0.5) * rate)
	orders := r.images(d, from, rate, n)
	wave := orders[len(orders)-1]
	for k := len(orders) - 2; k >= 0; k-- {
		r.reflect(wave, rate)
		for i, v := range orders[k] {
			wave[i] += v
		}
	}
	r.lean(wave, from, rate)
	for i := range wave[n*3/4:] {
		wave[n*3/4+i] *= 1 - float64(i)/float64(n-n*3/4)
	}
	return wave
}

// images returns, for each number of walls a sound met, when it arrives and how loud.
func (r room) images(d dice, from point, rate float64, n int) [][]float64 {
	const most = 40
	orders := make([][]float64, most+1)
	for k := range orders {
		orders[k] = make([]float64, n)
	}
	straight := from.to(r.phone)
	reach := straight + float64(n)*soundSpeed/rate
	keeps := math.Sqrt(1 - r.absorbs())
	r.eachImage(from, reach, func(at point, walls int) {
		far := at.to(r.phone) + 0.02*float64(walls)*d.Float64()
		i := int(math.Round((far - straight) / soundSpeed * rate))
		if i >= n {
			return
		}
		k := min(walls, most)
		orders[k][i] += straight / far * math.Pow(keeps, float64(walls-k))
	})
	return orders
}

// eachImage calls do with the mirrored places of a source up to so many m away, and with
// the number of walls between.
func (r room) eachImage(from point, reach float64, do func(at point, walls int)) {
	mirrored := func(axis, i int) float64 {
		if i%2 == 0 {
			return float64(i)*r.size[axis] + from[axis]
		}
		return float64(i+1)*r.size[axis] - from[axis]
	}
	var most [3]int
	for axis := range most {
		most[axis] = int(reach/r.size[axis]) + 1
	}
	for i := -most[0]; i <= most[0]; i++ {
		x := mirrored(0, i)
		for j := -most[1]; j <= most[1]; j++ {
			y := mirrored(1, j)
			for k := -most[2]; k <= most[2]; k++ {
				p := point{x, y, mirrored(2, k)}
				if p.to(r.phone) < reach {
					do(p, abs(i)+abs(j)+abs(k))
				}
			}
		}
	}
}

// absorbs returns the share of its energy that a sound loses at a wall, after Eyring.
func (r room) absorbs() float64 {
	x, y, z := r.size[0], r.size[1], r.size[2]
	return 1 - math.Exp(-0.161*x*y*z/(2*(x*y+y*z+z*x)*r.rt))
}

// reflect does to a wave what one wall does.
func (r room) reflect(wave []float64, rate float64) {
	keeps := math.Sqrt(1 - r.absorbs())
	c := math.Exp(-2 * math.Pi * 3000 / rate)
	low := 0.0
	for i, v := range wave {
		low = c*low + (1-c)*v
		wave[i] = keeps * (v - r.dull*(v-low))
	}
}

// lean adds what the table reflects.
func (r room) lean(wave []float64, from point, rate float64) {
	straight := from.to(r.phone)
	below := point{from[0], from[1], 2*(r.phone[2]-0.03) - from[2]}
	far := below.to(r.phone)
	if i := int(math.Round((far - straight) / soundSpeed * rate)); i < len(wave) {
		wave[i] += r.table * straight / far
	}
}

func abs(i int) int { return max(i, -i) }
