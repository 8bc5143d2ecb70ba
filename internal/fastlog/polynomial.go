package fastlog

// The greatest |u| of the two reductions: half an interval of the mantissa, and
// what the rounding of the inverse adds.
const (
	logReach  = 0x1.1p-8
	cubeReach = 0x1.1p-6
)

// Coefficients of ln(1+u) ≈ u + l2·u² + … + l7·u⁷ on |u| ≤ a = logReach. They are
// those of the power series with its term −u⁸/8 economised: on [−a, a] the
// Chebyshev polynomial T8(t) = 128t⁸ − 256t⁶ + 160t⁴ − 32t² + 1 of t = u/a gives
// u⁸ ≈ 2·a²·u⁶ − (5/4)·a⁴·u⁴ + (1/4)·a⁶·u², off by at most a⁸/64.
const (
	l2 = -1.0/2 - 1.0/4*logReach2*logReach2*logReach2/8
	l3 = 1.0 / 3
	l4 = -1.0/4 + 5.0/4*logReach2*logReach2/8
	l5 = 1.0 / 5
	l6 = -1.0/6 - 2*logReach2/8
	l7 = 1.0 / 7

	logReach2 = logReach * logReach
)

// Coefficients of ∛(1+u) − 1 ≈ k1·u + … + k8·u⁸ on |u| ≤ a = cubeReach: those of
// the binomial series with its term k9·u⁹ economised by
// T9(t) = 256t⁹ − 576t⁷ + 432t⁵ − 120t³ + 9t.
const (
	k1 = 1.0/3 - 9.0/256*k9*cubeReach2*cubeReach2*cubeReach2*cubeReach2
	k2 = -1.0 / 9
	k3 = 5.0/81 + 120.0/256*k9*cubeReach2*cubeReach2*cubeReach2
	k4 = -10.0 / 243
	k5 = 22.0/729 - 432.0/256*k9*cubeReach2*cubeReach2
	k6 = -154.0 / 6561
	k7 = 374.0/19683 + 576.0/256*k9*cubeReach2
	k8 = -935.0 / 59049
	k9 = 21505.0 / 1594323

	cubeReach2 = cubeReach * cubeReach
)
