package hydronics

// golden is the ratio of the golden section.
const golden = 0.6180339887498949

// peak is where a function that has one peak between lo and hi is greatest, by that many
// steps of golden section (Kiefer 1953), each of which leaves 0.618 of the way. It finds
// the edge of a jump as well, if the middle is on the higher side.
func peak(f func(x float64) float64, lo, hi float64, steps int) float64 {
	part := float64(golden * (hi - lo))
	a, b := hi-part, lo+part
	fa, fb := f(a), f(b)
	for range steps {
		part = float64(golden * part)
		if fa > fb {
			hi, b, fb = b, a, fa
			a = hi - part
			fa = f(a)
		} else {
			lo, a, fa = a, b, fb
			b = lo + part
			fb = f(b)
		}
	}
	if fa > fb {
		return a
	}
	return b
}
