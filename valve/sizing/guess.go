package sizing

import (
	"math"

	"github.com/indexrun/indexrun/internal/fastlog"
)

// The bits of a float64, read as an integer, are nearly its logarithm to the base 2:
// exponent and mantissa, the latter in place of its logarithm. octave is the unit,
// one are the bits of 1.
const (
	octave = 1 << 52
	one    = 1023 * octave
)

// octaves returns log2 x for a positive normal x, less up to 0.0861, in units of
// 2^-52.
func octaves(x float64) int64 { return int64(math.Float64bits(x)) - one }

// power is the inverse of octaves.
func power(octaves int64) float64 { return math.Float64frombits(uint64(octaves + one)) }

// guess returns a root in reduced trim to within a tenth. Rev is taken to fall
// with √c. Then, with y = c/d² and the index 0 for the turbulent Kv,
//
//	laminar:       root^(9/2)·(1 + N32·root²) = y0^(3/2)/(laminarSquare·Rev0)
//	transitional:  root³ = y0/FR,  FR = 1 + v·(1 + slope/2 + v/10)
//
// with slope that of FR in ln Rev and v = slope·ln(Rev0/10 000) what viscosity takes at
// the turbulent Kv. The corrections by rational functions, that of n^(-¼) by a
// parabola and the mean of the errors of octaves are fits of this package.
func (s *search) guess() float64 {
	kv := octaves(s.turbulent)
	rev := octaves(s.pace4)>>2 - kv>>1 // of Rev/10 000
	y := kv - octaves(s.area)

	small := power((3*y - 2*(rev+octaves(s.laminarSquare*turbulentFrom))) / 9)
	rise := float64(n32 * small * small)
	laminar := small * (0.985 + float64(0.3*rise)) / (1 + float64(0.527*rise))

	x := power(y / 3)
	slope := s.perNeper * (1.04 - float64(x*(2.754-float64(3.405*x))))
	v := float64(rev) * (slope * (math.Ln2 / octave))
	fr := 1 + float64(v*((1+float64(0.5*slope))+float64(0.1*v)))
	if !(fr > 2*slope) { // below the touch
		return laminar
	}
	if transitional := power((y-octaves(fr))/3 - 2*octave/25); transitional > laminar {
		return transitional
	}
	return laminar
}

// guessFull is guess in full-size trim, for transitional flow: there n^(-¼) is
// √(y/0.04), and 1 − FR =: d solves
//
//	d = −v·(1−d)^(-½) + slope/2·(d + d²)
//
// up to d³. It is right to within 0.04, and 0.2 between reducers.
func (s *search) guessFull() float64 {
	y := s.turbulent / s.area
	slope := s.perNeper
	if y < flatFrom {
		slope *= math.Sqrt(y * (1 / flatFrom))
	}
	rev := octaves(s.pace4)>>2 - octaves(s.turbulent)>>1
	neper := float64(float64(rev)*(math.Ln2/octave)) + float64(0.2*s.bend*s.turbulent*s.turbulent)
	miss := -slope * neper
	inverse := 1 / (1 - float64(0.5*(miss+slope)))
	d := miss * inverse
	d = (miss + float64((float64(0.375*miss)+float64(0.5*slope))*(d*d))) * inverse
	return fastlog.Cbrt(y) * (1 + float64(d*(1.0/3+float64(d*(2.0/9+float64(d*(14.0/81)))))))
}
