package valve

import (
	"math"

	"github.com/indexrun/indexrun/internal/check"
)

// InstalledTotal is how the flow through the common port of a three-way valve
// changes over its travel, in circuits under constant total pressure.
type InstalledTotal struct {
	control, bypass Installed
	weight          float64 // of the open bypass circuit beside the open control circuit
}

// InstalledTotal returns the total flow of the valve with an authority in each
// of its two circuits, both LeastAuthority … 1: that of the control port in the
// circuit of variable flow beside it, and that of the bypass port with what is
// in series with it. Both circuits are under the same constant pressure
// difference, valve included.
//
//	q/q100 = qA(h) + qB(1 − h),  qB100/qA100 = KvsB·√NB / (KvsA·√NA)
//
// each flow following [InstalledFlow] (common practice, no published source). A
// sum near 1 throughout is what one wishes for. Two ideal linear ports keep it at
// an authority of 1, and pass 26 % too much half way at 0.5; an equal-percentage
// control port of ratio 50 with a linear bypass lacks 36 % at 1 and 17 % at 0.5.
func (v ThreeWay) InstalledTotal(control, bypass float64) (InstalledTotal, error) {
	l := check.List{Package: packageName}
	check.Within(&l, "Control.Authority", control, LeastAuthority, 1)
	check.Within(&l, "Bypass.Authority", bypass, LeastAuthority, 1)
	if err := l.Err(); err != nil {
		return InstalledTotal{}, err
	}
	m := v.get()
	return InstalledTotal{
		control: Installed{m.control, control}, bypass: Installed{m.bypass, bypass},
		weight: float64(m.bypass.Kvs()/m.control.Kvs()) * math.Sqrt(bypass/control),
	}, nil
}

// At returns the total flow at relative travel h as a share of the flow through
// the fully open control port alone.
func (t InstalledTotal) At(h float64) float64 {
	return t.control.At(h) + float64(t.weight*t.bypass.At(1-h))
}
