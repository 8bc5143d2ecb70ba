package control

import (
	"math"
	"time"

	"github.com/indexrun/indexrun/internal/check"
)

// longest is the longest time that a model takes: a month, beyond all that a
// controller in a building is made for.
const longest = 31 * 24 * time.Hour

// checkTime allows zero to longest.
func checkTime(l *check.List, field string, t time.Duration) {
	l.Require(t >= 0 && t <= longest, field, t, "zero to "+longest.String())
}

// checkSpan is checkTime without the zero.
func checkSpan(l *check.List, field string, t time.Duration) {
	l.Require(t > 0 && t <= longest, field, t, "above zero, "+longest.String()+" at most")
}

// duration rounds seconds to a whole number of nanoseconds; what is not a number or
// longer than a Duration can be is 0.
func duration(seconds float64) time.Duration {
	ns := math.Round(seconds * float64(time.Second))
	if !(math.Abs(ns) < math.MaxInt64) {
		return 0
	}
	return time.Duration(ns)
}
