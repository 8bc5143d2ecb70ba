package fluid

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

const (
	warmestWater    = 473.15 // K
	greatestOfWater = 100e6  // Pa, the limit of region 1
	greatestOfMix   = 10e6   // Pa
)

// TemperatureRange returns the temperatures for which [Fluid.At] has an answer
// if the pressure is high enough: 0 … 200 °C for water, freezing … 100 °C for a
// glycol.
func (f Fluid) TemperatureRange() (lowest, highest units.Temperature) {
	lo, hi := f.kelvins()
	return units.AbsoluteKelvin(lo), units.AbsoluteKelvin(hi)
}

func (f Fluid) kelvins() (lowest, highest float64) {
	if f.glycol == noGlycol {
		return lowestSaturated, warmestWater
	}
	return f.freezingKelvin(), warmestGlycol
}

func (f Fluid) greatestPressure() float64 {
	if f.glycol == noGlycol {
		return greatestOfWater
	}
	return greatestOfMix
}

// contains reports whether f is a liquid with known properties at T in K and p
// in Pa, where the vapour pressure is vapour. Whatever is NaN is not.
func (f Fluid) contains(T, p, vapour float64) bool {
	lo, hi := f.kelvins()
	return T >= lo && T <= hi && p >= vapour && p <= f.greatestPressure()
}

// refuse says why contains is false. Bounds are rounded inwards, so that the
// numbers in the message would have been accepted.
func (f Fluid) refuse(t units.Temperature, p units.AbsolutePressure) error {
	faults := check.List{Package: packageName}
	T, pa := t.Kelvin(), float64(p.AboveVacuum())
	lo, hi := f.kelvins()
	warm := faults.Require(T >= lo && T <= hi, "temperature", celsiusText(t), fmt.Sprintf(
		"%g … %g °C, from freezing to the limit of the data for %v",
		ceilTo(lo-lowestSaturated, 100), hi-lowestSaturated, f))
	least := 0.0
	if warm {
		least = vapourPressure(T)
	}
	faults.Require(pa >= least && pa > 0 && pa <= f.greatestPressure(), "pressure", pressureText(p), fmt.Sprintf(
		"%g … %g kPa abs, above the vapour pressure of water and within the data for %v",
		ceilTo(least/1e3, 1e3), f.greatestPressure()/1e3, f))
	return faults.Err()
}

func celsiusText(t units.Temperature) string { return fmt.Sprintf("%.8g °C", t.Celsius()) }

func pressureText(p units.AbsolutePressure) string {
	return fmt.Sprintf("%.8g kPa abs", p.AboveVacuum().In(units.Kilopascal))
}

// ceilTo rounds x up to a multiple of 1/n, floorTo down.
func ceilTo(x, n float64) float64  { return math.Ceil(x*n) / n }
func floorTo(x, n float64) float64 { return math.Floor(x*n) / n }
