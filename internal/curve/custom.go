package curve

import "math"

// samples is how many steps a custom curve is checked on; a fault between two
// samples goes unseen.
const samples = 1000

// sample checks the promises of [Func] on a grid.
func sample(f Func) error {
	if end := f.At(1); !(math.Abs(end-1) <= 1e-12) {
		return fault("custom curve", end, "a value of 1 at 1")
	}
	if floor := f.At(0); !(floor >= 0 && floor < 1) {
		return fault("custom curve", floor, "a value of 0 … 1 at 0")
	}
	last := f.At(0)
	for i := 1; i <= samples; i++ {
		x := float64(i) / samples
		y := f.At(x)
		if !(y > last) {
			return fault("custom curve", y, "strictly increasing values; it does not rise up to x = "+text(x))
		}
		if back := f.Inverse(y); !(math.Abs(back-x) <= 1e-9) {
			return fault("custom curve", back, "an inverse that returns to x = "+text(x))
		}
		last = y
	}
	return nil
}
