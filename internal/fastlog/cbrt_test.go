package fastlog

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const cubeLimit = 0.52 // ulp

func TestCbrtError(t *testing.T) {
	tests := []struct {
		name     string
		from, to int // exponents
	}{
		{"three octaves", 0, 2},
		{"trim of valves", -20, -4},
		{"normal arguments", -1022, 1023},
		{"subnormal arguments", -1074, -1023},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(1990, 3))
			worst, at := 0.0, 0.0
			for range 10000 {
				x := anyNumber(rng, tt.from, tt.to)
				if e := cubeRootError(Cbrt(x), x); e > worst {
					worst, at = e, x
				}
			}
			t.Logf("greatest error %.4f ulp, at %v", worst, at)
			assert.Less(t, worst, cubeLimit, "at x = %v", at)
		})
	}
}

func TestCbrtErrorProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64().Filter(func(x float64) bool { return x != 0 && !math.IsInf(x, 0) }).Draw(t, "x")
		y := Cbrt(x)
		if e := cubeRootError(math.Abs(y), math.Abs(x)); e >= cubeLimit || y < 0 != (x < 0) {
			t.Fatalf("Cbrt(%v) = %v, off by %v ulp", x, y, e)
		}
	})
}

func TestCbrtSpecialValues(t *testing.T) {
	inf := math.Inf(1)
	for _, x := range []float64{0, math.Copysign(0, -1), inf, -inf} {
		assert.Equal(t, math.Float64bits(x), math.Float64bits(Cbrt(x)), "Cbrt(%v)", x)
	}
	assert.True(t, math.IsNaN(Cbrt(math.NaN())))
	for _, x := range []float64{math.SmallestNonzeroFloat64, math.Nextafter(0x1p-1022, 0), 0x1p-1022, math.MaxFloat64} {
		assert.Less(t, cubeRootError(Cbrt(x), x), cubeLimit, "Cbrt(%v)", x)
		assert.Less(t, cubeRootError(-Cbrt(-x), x), cubeLimit, "Cbrt(%v)", -x)
	}
}

// A cube that is a float64 has its root exactly, at a power of two as well, below
// which the float64 are closer together.
func TestCbrtOfCubes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		root := math.Ldexp(float64(rapid.IntRange(-1<<17, 1<<17).Draw(t, "n")), rapid.IntRange(-300, 300).Draw(t, "exponent"))
		require.Equal(t, root, Cbrt(root*root*root))
	})
	for exponent := -358; exponent <= 341; exponent++ {
		require.Equal(t, math.Ldexp(1, exponent), Cbrt(math.Ldexp(1, 3*exponent)))
	}
}

// Crosses each border between two intervals in some octaves, and each power of two.
func TestCbrtMonotoneAcrossIntervals(t *testing.T) {
	for exponent := -1074; exponent < 1024; exponent++ {
		requireMonotone(t, Cbrt, math.Ldexp(1, exponent))
	}
	for _, exponent := range []int{-1022, -2, -1, 0, 1, 2, 3, 1023} {
		for j := range cubeSize {
			requireMonotone(t, Cbrt, math.Ldexp(1+float64(j)/cubeSize, exponent))
		}
	}
}

// See TestLogIsNotFused.
func TestCbrtIsNotFused(t *testing.T) {
	rng := rand.New(rand.NewPCG(1991, 2))
	for range 5000 {
		x := anyNumber(rng, -60, 60)
		require.Equal(t, unfusedCbrt(x), Cbrt(x), "x = %v", x)
	}
}

func unfusedCbrt(x float64) float64 {
	fraction, exponent := math.Frexp(x)
	m, e := 2*fraction, exponent-1
	third := int(math.Floor(float64(e) / 3))
	entry := cubeTable[(e-3*third)*cubeSize+int((m-1)*cubeSize)]
	coarse := math.Trunc(m*0x1p31) * 0x1p-31
	u := add(sub(mul(entry.inverse, coarse), 1), mul(entry.inverse, m-coarse))
	u2 := mul(u, u)
	first := add(mul(u, k1), entry.tail)
	low := mul(u2, add(k2, mul(u, k3)))
	middle := add(k4, mul(u, k5))
	high := mul(u2, add(add(k6, mul(u, k7)), mul(u2, k8)))
	excess := add(add(first, low), mul(mul(u2, u2), add(middle, high)))
	scale := math.Ldexp(math.Float64frombits(entry.bits), third)
	return add(scale, mul(scale, excess))
}
