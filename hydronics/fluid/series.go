package fluid

// polynomial is Σ c[i]·x^i.
type polynomial []float64

func (c polynomial) at(x float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = c[i] + float64(sum*x)
	}
	return sum
}

// series is the double power series Σ c[i][j]·x^i·y^j; its rows need not be of
// one length.
type series []polynomial

func (c series) at(x, y float64) float64 {
	sum := 0.0
	for i := len(c) - 1; i >= 0; i-- {
		sum = c[i].at(y) + float64(sum*x)
	}
	return sum
}
