package valve

// complement is the law of a bypass port that makes up for its control port. The
// two relative coefficients sum to one at every position:
//
//	φB = (1 − φA)/(1 − leakage of A)
//
// Its travel counts from the bypass port's own shut end. It is kept by value, so
// that == tells whether two of them are the same.
type complement struct{ control body }

func (c complement) At(y float64) float64 {
	return (1 - c.control.at(1-y)) / (1 - c.control.leakage)
}

func (c complement) Inverse(phi float64) float64 {
	return 1 - c.control.inverse(1-float64(phi*(1-c.control.leakage)))
}
