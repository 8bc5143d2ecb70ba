package fastlog

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/unfused"
)

const logLimit = 0.51 // ulp

func TestLogError(t *testing.T) {
	between := func(from, to float64) func(*rand.Rand) float64 {
		return func(rng *rand.Rand) float64 { return from + (to-from)*rng.Float64() }
	}
	octaves := func(from, to int) func(*rand.Rand) float64 {
		return func(rng *rand.Rand) float64 { return anyNumber(rng, from, to) }
	}
	tests := []struct {
		name string
		draw func(*rand.Rand) float64
	}{
		{"shares", between(1e-3, 1)},
		{"about one", between(0.98, 1.02)},
		{"next to one", between(1-0x1p-30, 1+0x1p-30)},
		{"border of unity", between(1+0.9*unity, 1+1.1*unity)},
		{"the module's range", octaves(-60, 60)},
		{"normal arguments", octaves(-1022, 1023)},
		{"subnormal arguments", octaves(-1074, -1023)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(1990, 1))
			worst, at := 0.0, 0.0
			for range 2000 {
				x := tt.draw(rng)
				if x == 1 { // no units: see the special values
					continue
				}
				if e := ulpError(Log(x), bigLog(bigNumber(x))); e > worst {
					worst, at = e, x
				}
			}
			t.Logf("greatest error %.4f ulp, at %v", worst, at)
			assert.Less(t, worst, logLimit, "at x = %v", at)
		})
	}
}

// anyNumber draws a number with an exponent between from and to.
func anyNumber(rng *rand.Rand, from, to int) float64 {
	return math.Ldexp(1+rng.Float64(), from+rng.IntN(to-from+1))
}

func TestLogErrorProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(math.SmallestNonzeroFloat64, math.MaxFloat64).Draw(t, "x")
		if x == 1 {
			t.Skip("no units")
		}
		if e := ulpError(Log(x), bigLog(bigNumber(x))); e >= logLimit {
			t.Fatalf("Log(%v) is off by %v ulp", x, e)
		}
	})
}

func TestLogSpecialValues(t *testing.T) {
	inf := math.Inf(1)
	tests := []struct {
		name    string
		x, want float64
	}{
		{"one", 1, 0},
		{"infinity", inf, inf},
		{"zero", 0, -inf},
		{"negative zero", math.Copysign(0, -1), -inf},
		{"next above one", 1 + 0x1p-52, 0x1p-52 - 0x1p-105},
		{"next below one", 1 - 0x1p-53, -0x1p-53},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, math.Float64bits(tt.want), math.Float64bits(Log(tt.x)))
		})
	}
	for _, x := range []float64{math.NaN(), -inf, -1, -math.SmallestNonzeroFloat64, -math.MaxFloat64} {
		assert.True(t, math.IsNaN(Log(x)), "Log(%v)", x)
	}
	for _, x := range []float64{math.SmallestNonzeroFloat64, 0x1p-1022, math.Nextafter(0x1p-1022, 0), math.MaxFloat64} {
		assert.Less(t, ulpError(Log(x), bigLog(bigNumber(x))), logLimit, "Log(%v)", x)
	}
}

// Crosses each border between two intervals in some octaves, one float64 at a
// time, each power of two, and the borders of the interval about one.
func TestLogMonotoneAcrossIntervals(t *testing.T) {
	borders := []float64{1 - unity, 1 + unity, 1}
	for exponent := -1074; exponent < 1024; exponent++ {
		borders = append(borders, math.Ldexp(1, exponent))
	}
	for _, exponent := range []int{-1022, -40, -2, -1, 0, 1, 2, 40, 1023} {
		for j := range logSize {
			borders = append(borders, math.Ldexp(1+float64(j)/logSize, exponent))
		}
	}
	for _, x := range borders {
		requireMonotone(t, Log, x)
	}
}

// requireMonotone walks the float64 neighbours of x from below to above it.
func requireMonotone(t *testing.T, f func(float64) float64, x float64) {
	t.Helper()
	const around = 4
	for range around {
		x = math.Nextafter(x, 0)
	}
	for range 2 * around {
		next := math.Nextafter(x, math.Inf(1))
		if f(next) < f(x) {
			t.Fatalf("falls from %v at %v to %v at %v", f(x), x, f(next), next)
		}
		x = next
	}
}

func TestLogMonotoneProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0, math.MaxFloat64).Draw(t, "x")
		next := math.Nextafter(x, math.Inf(1))
		if Log(next) < Log(x) {
			t.Fatalf("Log falls between %v and %v", x, next)
		}
	})
}

// whole must be a multiple of 2^-42, so that it can be subtracted without
// rounding, and the two parts together must be closer to ln x than any float64 is.
func TestParts(t *testing.T) {
	rng := rand.New(rand.NewPCG(1990, 7))
	worst := 0.0
	for range 4000 {
		x := anyNumber(rng, -1022, 1023)
		if rng.IntN(2) == 0 {
			x = anyNumber(rng, -10, 10)
		}
		whole, rest := Parts(x)
		require.Equal(t, math.Trunc(whole*0x1p42), whole*0x1p42, "x = %v", x)
		require.Less(t, math.Abs(rest), 0x1p-15, "x = %v", x)
		sum := new(big.Float).Add(bigNumber(whole), bigNumber(rest))
		diff, _ := sum.Sub(sum, bigLog(bigNumber(x))).Float64()
		worst = max(worst, math.Abs(diff))
	}
	t.Logf("greatest error 2^%.2f", math.Log2(worst))
	assert.Less(t, worst, 0x1p-66)
}

// A fused multiply-add rounds once where the code rounds twice. This evaluates
// the same formula with every operation rounded by math/big, which cannot
// fuse, so it fails on an architecture where the compiler fuses one.
func TestLogIsNotFused(t *testing.T) {
	rng := rand.New(rand.NewPCG(1991, 1))
	for range 3000 {
		x := anyNumber(rng, -60, 60)
		require.Equal(t, unfusedLog(x), Log(x), "x = %v", x)
		near := 1 + unity*(2*rng.Float64()-1)
		require.Equal(t, add(near-1, unfusedExcess(0, near-1)), Log(near), "x = %v", near)
	}
}

func unfusedLog(x float64) float64 {
	fraction, exponent := math.Frexp(x)
	m, e := 2*fraction, float64(exponent-1)
	entry := logTable[int((m-1)*logSize)]
	coarse := math.Trunc(m*0x1p31) * 0x1p-31
	uHi, uLo := sub(mul(entry.inverse, coarse), 1), mul(entry.inverse, m-coarse)
	whole := add(add(mul(e, ln2Hi), entry.hi), uHi)
	small := add(add(mul(e, ln2Lo), entry.lo), uLo)
	return add(whole, unfusedExcess(small, add(uHi, uLo)))
}

func unfusedExcess(small, u float64) float64 {
	u2 := mul(u, u)
	low := add(small, mul(u2, add(l2, mul(u, l3))))
	middle := add(l4, mul(u, l5))
	high := mul(u2, add(l6, mul(u, l7)))
	return add(low, mul(mul(u2, u2), add(middle, high)))
}

// The hot function and its copy differ by fusing alone.
var add, sub, mul = unfused.Add, unfused.Sub, unfused.Mul

func TestNothingAllocates(t *testing.T) {
	var sum float64
	for _, x := range []float64{1.001, 5, 1e300, 1e-310, 0, -1, math.NaN()} {
		assert.Zero(t, testing.AllocsPerRun(100, func() {
			whole, rest := Parts(x)
			sum += Log(x) + Cbrt(x) + Near(x) + whole + rest
		}))
	}
}
