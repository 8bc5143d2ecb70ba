// Package unfused does arithmetic with each result rounded by itself, whatever the
// machine: what float64 gives where no multiplication and addition are fused. Tests
// hold the hot functions to it, so that all architectures agree to the bit.
package unfused

import "math/big"

// Add returns x + y.
func Add(x, y float64) float64 { return rounded((*big.Float).Add, x, y) }

// Sub returns x − y.
func Sub(x, y float64) float64 { return rounded((*big.Float).Sub, x, y) }

// Mul returns x·y.
func Mul(x, y float64) float64 { return rounded((*big.Float).Mul, x, y) }

// rounded applies op and rounds its exact result to the 53 bits of a float64.
func rounded(op func(z, x, y *big.Float) *big.Float, x, y float64) float64 {
	z := new(big.Float).SetPrec(53)
	v, _ := op(z, big.NewFloat(x), big.NewFloat(y)).Float64()
	return v
}
