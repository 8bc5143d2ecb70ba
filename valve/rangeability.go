package valve

import (
	"fmt"

	"github.com/indexrun/indexrun/internal/check"
)

// ClosingTravel returns the relative travel below which the curve runs straight
// to the leakage.
func (v TwoWay) ClosingTravel() float64 { return v.get().closing }

// ClosingTravel returns the relative travel, of the full stroke, below which the
// curve runs straight to the leakage.
func (v PressureIndependent) ClosingTravel() float64 { return v.get().closing }

// InherentRangeability returns Kvs/Kvr of the model, Kvr being the coefficient
// where the closing region begins. The theoretical ratio of the law, see
// [Characteristic.TheoreticalRatio], is greater.
func (v TwoWay) InherentRangeability() float64 { return 1 / v.get().closingPhi }

// slopeTolerance is by what factor the slope between two measured points may
// differ, either way, from the law's (IEC 60534-2-4, from memory).
const slopeTolerance = 2

// MeasuredRangeability returns the inherent rangeability Kvs/Kvr that measured
// points show against the law stated for the valve: Kvr is the smallest
// coefficient from which on, up to the open valve, the slope between
// neighbouring points stays within half to twice that of the law (IEC
// 60534-2-4, from memory). Points rise strictly in both columns and end at (1,
// 1); the result is 1 if not even the last two follow the law.
func MeasuredRangeability(law Characteristic, measured []Point) (float64, error) {
	l := check.List{Package: packageName}
	l.Add(law.Err())
	checkMeasured(&l, measured)
	if err := l.Err(); err != nil {
		return 0, err
	}
	i := len(measured) - 1
	for i > 0 && follows(law, measured[i-1], measured[i]) {
		i--
	}
	return 1 / measured[i].Coefficient, nil
}

func checkMeasured(l *check.List, measured []Point) {
	if !l.Require(len(measured) >= 2, "measured", len(measured), "two points or more") {
		return
	}
	l.Require(measured[0].Travel >= 0 && measured[0].Coefficient > 0, "measured[0]", measured[0], "a travel of 0 or more and a coefficient above 0")
	for i := 1; i < len(measured); i++ {
		a, b := measured[i-1], measured[i]
		l.Require(b.Travel > a.Travel && b.Coefficient > a.Coefficient, fmt.Sprintf("measured[%d]", i), b, "more than the point before in both")
	}
	last := measured[len(measured)-1]
	l.Require(last == Point{1, 1}, fmt.Sprintf("measured[%d]", len(measured)-1), last, "the open valve, {1 1}")
}

func follows(law Characteristic, a, b Point) bool {
	stated := law.At(b.Travel) - law.At(a.Travel)
	got := b.Coefficient - a.Coefficient
	return got <= slopeTolerance*stated && got >= stated/slopeTolerance
}
