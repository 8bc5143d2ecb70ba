package fastexp

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/internal/unfused"
)

func TestExpError(t *testing.T) {
	tests := []struct {
		name     string
		from, to float64
		points   int
	}{
		{"equal percentage", -5, 0, 10000},
		{"the module's range", -40, 40, 10000},
		{"plain arguments", -plainLimit, plainLimit, 5000},
		{"about zero", -0.003, 0.003, 5000},
		{"largest results", plainLimit, 709.782712893384, 1000},
		{"small normal results", -708.3, -plainLimit, 5000},
		{"subnormal results", -745.2, -708.3, 5000},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			worst, at := worstError(tt.from, tt.to, tt.points)
			t.Logf("greatest error %.4f ulp, at %v", worst, at)
			assert.Less(t, worst, 0.51, "at x = %v", at)
		})
	}
}

// worstError returns the greatest error of Exp at random points and both ends.
func worstError(from, to float64, points int) (worst, at float64) {
	rng := rand.New(rand.NewPCG(1989, uint64(points)))
	for i := range points {
		x := from + (to-from)*rng.Float64()
		switch i {
		case 0:
			x = from
		case 1:
			x = to
		}
		if e := ulpError(Exp(x), bigExp(x)); e > worst {
			worst, at = e, x
		}
	}
	return worst, at
}

func TestExpErrorProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-746, 709.78).Draw(t, "x")
		if e := ulpError(Exp(x), bigExp(x)); e >= 0.51 {
			t.Fatalf("Exp(%v) is off by %v ulp", x, e)
		}
	})
}

func TestExpSpecialValues(t *testing.T) {
	const (
		lastFinite   = 0x1.62e42fefa39efp+9 // e^x is finite here and not one ulp above
		lastPositive = -0x1.74910d52d3051p+9
	)
	inf := math.Inf(1)
	tests := []struct {
		name    string
		x, want float64
	}{
		{"zero", 0, 1},
		{"negative zero", math.Copysign(0, -1), 1},
		{"least subnormal", math.SmallestNonzeroFloat64, 1},
		{"negative least subnormal", -math.SmallestNonzeroFloat64, 1},
		{"infinity", inf, inf},
		{"negative infinity", -inf, 0},
		{"greatest float64", math.MaxFloat64, inf},
		{"negative greatest float64", -math.MaxFloat64, 0},
		{"just above the last finite result", math.Nextafter(lastFinite, inf), inf},
		{"last non-zero result", lastPositive, math.SmallestNonzeroFloat64},
		{"just below the last non-zero result", math.Nextafter(lastPositive, -inf), 0},
		{"surely infinite", math.Nextafter(surelyInfinite, inf), inf},
		{"just less than surely infinite", surelyInfinite, inf},
		{"surely zero", math.Nextafter(surelyZero, -inf), 0},
		{"just more than surely zero", surelyZero, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, math.Float64bits(tt.want), math.Float64bits(Exp(tt.x)))
		})
	}
	assert.True(t, math.IsNaN(Exp(math.NaN())))
	assert.False(t, math.IsInf(Exp(lastFinite), 0))
	assert.Less(t, ulpError(Exp(lastFinite), bigExp(lastFinite)), 0.51)
}

func TestExpNeverNegative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64().Draw(t, "x")
		if y := Exp(x); !(y >= 0) {
			t.Fatalf("Exp(%v) = %v", x, y)
		}
	})
}

// Crosses each border between two table steps, one float64 at a time, and the
// borders of the plain range.
func TestExpMonotoneAcrossSteps(t *testing.T) {
	const around = 4
	first, last := int(math.Ceil(-745*perLn2)), int(math.Floor(709*perLn2))
	for k := first; k < last; k++ {
		middle := (float64(k) + 0.5) / perLn2
		checkMonotone(t, middle, around, true)
	}
	checkMonotone(t, plainLimit, around, false)
	checkMonotone(t, -plainLimit, around, false)
	checkMonotone(t, 0, around, false)
}

// checkMonotone walks the float64 neighbours of x from below to above it.
func checkMonotone(t *testing.T, x float64, around int, border bool) {
	t.Helper()
	from := x
	for range around {
		from = math.Nextafter(from, math.Inf(-1))
	}
	before, _ := reduce(from)
	previous := Exp(from)
	for range 2 * around {
		from = math.Nextafter(from, math.Inf(1))
		y := Exp(from)
		if y < previous {
			t.Fatalf("Exp falls from %v to %v at %v", previous, y, from)
		}
		previous = y
	}
	if after, _ := reduce(from); border && after != before+1 {
		t.Fatalf("no border between table steps near %v", x)
	}
}

func TestExpMonotoneProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-746, 710).Draw(t, "x")
		next := math.Nextafter(x, math.Inf(1))
		if Exp(next) < Exp(x) {
			t.Fatalf("Exp falls between %v and %v", x, next)
		}
	})
}

// A fused multiply-add rounds once where the code rounds twice. This evaluates
// the same formula with every operation rounded by math/big, which cannot
// fuse, so it fails on an architecture where the compiler fuses one.
func TestExpIsNotFused(t *testing.T) {
	rng := rand.New(rand.NewPCG(1991, 1))
	for range 5000 {
		x := -40 + 80*rng.Float64()
		require.Equal(t, unfusedExp(x), Exp(x), "x = %v", x)
	}
}

func unfusedExp(x float64) float64 {
	k := sub(add(mul(x, perLn2), toInteger), toInteger)
	r := sub(sub(x, mul(k, stepHi)), mul(k, stepLo))
	j := int(k) & (tableSize - 1)
	r2 := mul(r, r)
	low := mul(r2, add(c2, mul(r, c3)))
	high := mul(mul(r2, r2), add(c4, mul(r, c5)))
	sum := add(add(r, low), add(high, table[j].tail))
	scale := math.Ldexp(math.Float64frombits(table[j].bits), (int(k)-j)/tableSize)
	return add(scale, mul(scale, sum))
}

// The hot function and its copy differ by fusing alone.
var add, sub, mul = unfused.Add, unfused.Sub, unfused.Mul

func TestExpAllocatesNothing(t *testing.T) {
	var sum float64
	for _, x := range []float64{-1.5, 709, -740, math.NaN()} {
		assert.Zero(t, testing.AllocsPerRun(100, func() { sum += Exp(x) }))
	}
}
