// Package fastlog is a logarithm and a cube root for the inner loops of this
// module, beside the exponential of package fastexp.
//
// # Why own code
//
// Friction in pipes and viscous flow through valves are found by iteration, and
// each step waits for a logarithm. Three of [math.Log] take longer than all the
// rest of a valve's sizing. Besides, its error reaches 0.77 units in the last place
// (ulp), and since some architectures have it in assembly and others fuse its
// operations, the bits of its result depend on the machine; [math.Cbrt] is no
// better. [Log] and [Cbrt] remove these faults. Measured with this package's
// benchmarks (go 1.26, amd64, a server core of 2024, call and loop included) and,
// for the error, at a million random points between 2^-60 and 2^60, a part of them
// close to 1, three million for the roots:
//
//	                              Log         math.Log    Cbrt        math.Cbrt
//	arguments independent         4.1 ns      6.8 ns      4.2 ns      7.1 ns
//	each waits for the last       14 ns       29 ns       17 ns       35 ns
//	greatest error                0.503 ulp   0.77 ulp    0.512 ulp   0.667 ulp
//
// [Near], a coarse logarithm for the first steps of an iteration, takes 10 ns where
// the next step waits for it.
//
// # Method
//
// The leading bits of the mantissa choose an entry of a table, after P. T. P. Tang,
// "Table-driven implementation of the logarithm function in IEEE floating-point
// arithmetic", ACM Transactions on Mathematical Software 16 (1990), 378–400. The
// entry holds r, about the inverse of the middle of its interval, to 11 bits only.
// The products of r with the first 32 bits of the mantissa m and with the other 21
// are therefore exact, and with x = 2^e·m so are both parts of u in
//
//	r·m  = 1 + u₁ + u₂,   u = u₁ + u₂
//	ln x = (e·ln 2 − ln r + u₁) + (u₂ + (ln(1+u) − u))
//
// The table has −ln r, and the code ln 2, as a multiple of 2^-42 and a rest. u₁ is
// such a multiple too, and ln x below 2^10, so that the first bracket adds up
// without rounding; [Parts] returns it apart. The rests belong to the second
// bracket, which is below 2^-15, with a polynomial of degree 7 for ln(1+u) − u
// (128 intervals, |u| ≤ 0.0042). Nearly the whole error is that of the one addition
// of the brackets. Close to 1, where ln x is too small for that, u is x − 1 and no
// table is needed.
//
// The cube root takes e = 3k + s apart and has 32 intervals for each of the three
// s, with |u| ≤ 0.0166 and a polynomial of degree 8:
//
//	∛x = 2^k · ∛(2^s/r) · ∛(1+u)
//
// The last term of each series is economised into the others; the derivation is
// beside the coefficients.
//
// # What holds
//
//   - Log(1) is 0, Log(+Inf) is +Inf, Log(0) is −Inf, Log of a negative number and
//     of NaN is NaN; Cbrt returns zeros, infinities and NaN as they are: exactly.
//   - The error is below 0.51 ulp (Log) and 0.52 ulp (Cbrt) over the whole range of
//     float64, subnormal arguments included.
//   - Neither decreases from any interval to the next; the tests cross the borders.
//   - Each product that feeds a sum is exact or rounded by an explicit conversion,
//     which the language forbids a compiler to fuse. The bits are therefore the same
//     on every architecture.
//   - Nothing here allocates, locks or panics.
//
// The tables are made by the generator in gen.go (go generate), and a test
// computes them again by another route.
package fastlog

//go:generate go run gen.go
