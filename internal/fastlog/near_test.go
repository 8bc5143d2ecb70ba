package fastlog

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNear(t *testing.T) {
	worst := 0.0
	for _, exponent := range []int{-1022, -300, -3, -1, 0, 1, 20, 1023} {
		const steps = 2000
		for i := range steps {
			x := math.Ldexp(1+float64(i)/steps, exponent)
			want, _ := bigLog(bigNumber(x)).Float64()
			worst = max(worst, math.Abs(Near(x)-want))
		}
	}
	t.Logf("greatest error %.3g", worst)
	assert.Less(t, worst, 2e-6)
}
