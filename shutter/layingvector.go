package shutter

// Sums over the offsets, written out for arrays of fixed size: library kernels on
// slices would move every one of them to the heap, and they are what takes time here.

func scaled(p *[offsets]float64, by float64) (q [offsets]float64) {
	for b, v := range p {
		q[b] = v * by
	}
	return q
}

func addScaled(to, p *[offsets]float64, by float64) {
	for b, v := range p {
		to[b] += v * by
	}
}

func dot(p, q *[offsets]float64) float64 {
	sum := 0.0
	for b, v := range p {
		sum += v * q[b]
	}
	return sum
}

func sumOf(p *[offsets]float64) float64 {
	sum := 0.0
	for _, v := range p {
		sum += v
	}
	return sum
}
