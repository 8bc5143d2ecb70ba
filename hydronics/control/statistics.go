package control

import "math"

// statistics gathers mean, spread and straight-line trend of numbers that come one
// by one (sums about the first number, so that little cancels).
type statistics struct {
	n            float64
	first        float64
	x, xx, k, kx float64 // sums of x, x², k, k·x with k counted from 0
	kk           float64
}

func (s *statistics) add(v float64) {
	if s.n == 0 {
		s.first = v
	}
	x := v - s.first
	s.x += x
	s.xx += float64(x * x)
	s.k += s.n
	s.kk += float64(s.n * s.n)
	s.kx += float64(s.n * x)
	s.n++
}

func (s *statistics) mean() float64 { return s.first + s.x/s.n }

// spread is the standard deviation.
func (s *statistics) spread() float64 { return math.Sqrt(math.Max(0, s.variance())) }

func (s *statistics) variance() float64 { return s.xx/s.n - square(s.x/s.n) }

// slope is that of the straight line through the numbers.
func (s *statistics) slope() float64 {
	if s.n < 2 {
		return 0
	}
	return (s.kx - s.k*s.x/s.n) / (s.kk - s.k*s.k/s.n)
}

// trend is the line's last value over its first, not below zero.
func (s *statistics) trend() float64 {
	rise := s.slope() * (s.n - 1) / 2
	if !(s.mean() > math.Abs(rise)) {
		return math.Max(0, math.Copysign(math.Inf(1), rise))
	}
	return (s.mean() + rise) / (s.mean() - rise)
}

// unevenness is the standard deviation about the line.
func (s *statistics) unevenness() float64 {
	explained := square(s.slope()) * (s.kk - s.k*s.k/s.n) / s.n
	return math.Sqrt(math.Max(0, s.variance()-explained))
}
