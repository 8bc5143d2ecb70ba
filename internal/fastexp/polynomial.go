package fastexp

import "math"

// halfStep is the greatest |r|.
const halfStep = math.Ln2 / (2 * tableSize)

// Coefficients of eʳ − 1 ≈ r + c2·r² + c3·r³ + c4·r⁴ + c5·r⁵ on |r| ≤ a = halfStep.
// They are those of the power series with its term r⁶/720 economised: on [−a, a] the
// Chebyshev polynomial T6(t) = 32t⁶ − 48t⁴ + 18t² − 1 of t = r/a gives
// r⁶ ≈ (48·a²·r⁴ − 18·a⁴·r²)/32, off by at most a⁶/16, where leaving the term out
// would cost a⁶.
const (
	c2 = 1.0/2 - 18.0/32*halfStep*halfStep*halfStep*halfStep/720
	c3 = 1.0 / 6
	c4 = 1.0/24 + 48.0/32*halfStep*halfStep/720
	c5 = 1.0 / 120
)
