package valve

import (
	"fmt"
	"math"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// Config returns the description the valve was made from; its Density is that
// of the description, see [PressureIndependent.Density].
func (v PressureIndependent) Config() PressureIndependentConfig {
	cfg := v.get().sheet.config
	cfg.Settings = append([]Setting(nil), cfg.Settings...)
	return cfg
}

// Mark returns what the dial shows at the setting.
func (v PressureIndependent) Mark() float64 { return v.get().setting.Mark }

// SetFlow returns the flow of the setting: the regulated flow at the greatest
// usable travel, at the density of the liquid.
func (v PressureIndependent) SetFlow() units.Flow { return units.Flow(v.get().flow) }

// MinPressure returns the least pressure difference at the setting, as the
// table defines it: MinPressureShare of the flow passes there.
func (v PressureIndependent) MinPressure() units.Pressure { return v.get().setting.MinPressure }

// FullFlowPressure returns the least pressure difference at which the whole
// flow of the setting passes: MinPressure/MinPressureShare².
func (v PressureIndependent) FullFlowPressure() units.Pressure {
	m := v.get()
	return units.Pressure(m.control + m.excess)
}

// SettingKind tells what a setting does to the valve.
func (v PressureIndependent) SettingKind() SettingKind { return v.get().sheet.config.SettingKind }

// Regulator returns what the settings table tells of the regulator.
func (v PressureIndependent) Regulator() Regulator { return v.get().sheet.regulator }

// FlowRange returns the flows of the lowest and the highest setting, at the
// density of the liquid.
func (v PressureIndependent) FlowRange() (least, greatest units.Flow) {
	m := v.get()
	return m.flowRange(m.density)
}

func (m *pressureIndependent) flowRange(rho units.Density) (least, greatest units.Flow) {
	table := m.sheet.table()
	if len(table) == 0 {
		return units.Flow(math.NaN()), units.Flow(math.NaN())
	}
	f := units.Flow(lightness(rho))
	return table.first().Flow * f, table.last().Flow * f
}

// WithFlow returns the valve set to a flow between its lowest and its highest
// setting, or an [UnreachableError].
func (v PressureIndependent) WithFlow(q units.Flow) (PressureIndependent, error) {
	row, err := v.SettingFor(q)
	if err != nil {
		return PressureIndependent{}, err
	}
	m := v.get()
	return m.sheet.at(row, m.density), nil
}

// SettingFor returns the setting that WithFlow would make, whatever the present
// one: mark, flow with water of ReferenceDensity, and least pressure. It costs no
// allocation, for one who weighs many valves.
func (v PressureIndependent) SettingFor(q units.Flow) (Setting, error) {
	m := v.get()
	row, ok := m.rowFor(q, m.density)
	if !ok {
		least, greatest := v.FlowRange()
		if math.IsNaN(float64(greatest)) {
			return Setting{}, &units.FieldError{Package: packageName, Field: "PressureIndependent", Value: "the zero valve", Want: "one made by NewPressureIndependent"}
		}
		return Setting{}, &UnreachableError{Wanted: q, Least: least, Greatest: greatest}
	}
	return row, nil
}

// rowFor returns the setting for a flow of a liquid.
func (m *pressureIndependent) rowFor(q units.Flow, rho units.Density) (Setting, bool) {
	table := m.sheet.table()
	if len(table) == 0 {
		return Setting{}, false
	}
	at := units.Flow(float64(q) / lightness(rho))
	at = snap(snap(at, table.first().Flow), table.last().Flow)
	return table.atFlow(at)
}

// snap returns to if q differs from it by rounding only.
func snap(q, to units.Flow) units.Flow {
	if math.Abs(float64(q-to)) <= rounding*float64(to) {
		return to
	}
	return q
}

// WithMark returns the valve with its dial at a mark within the table.
func (v PressureIndependent) WithMark(mark float64) (PressureIndependent, error) {
	m := v.get()
	table := m.sheet.table()
	row, ok := table.atMark(mark)
	if !ok {
		want := "a mark of a valve that was made by NewPressureIndependent"
		if len(table) > 0 {
			want = fmt.Sprintf("a mark of %v … %v", table.first().Mark, table.last().Mark)
		}
		return PressureIndependent{}, &units.FieldError{Package: packageName, Field: "Mark", Value: fmt.Sprint(mark), Want: want}
	}
	return m.sheet.at(row, m.density), nil
}

// WithMinPressure returns the valve at the greatest setting whose least
// pressure is no more than dp; false if even the lowest setting needs more.
func (v PressureIndependent) WithMinPressure(dp units.Pressure) (PressureIndependent, bool) {
	m := v.get()
	row, ok := m.sheet.table().within(dp)
	if !ok {
		return PressureIndependent{}, false
	}
	return m.sheet.at(row, m.density), true
}

// WithDensity returns the valve, its dial as it is, with a liquid of that
// density in it: the regulator holds its pressures, so that every flow changes
// by √(ρ0/ρ).
func (v PressureIndependent) WithDensity(rho units.Density) (PressureIndependent, error) {
	l := check.List{Package: packageName}
	l.Add(checkedDensity(rho))
	l.Require(v.model != nil, "PressureIndependent", "the zero value", "a valve made by NewPressureIndependent")
	if err := l.Err(); err != nil {
		return PressureIndependent{}, err
	}
	return v.model.sheet.at(v.model.setting, densityOr(rho)), nil
}

// Equal reports whether v and w were made from equal descriptions and are at
// the same setting with liquids of the same density.
func (v PressureIndependent) Equal(w PressureIndependent) bool {
	if (v.model == nil) != (w.model == nil) {
		return false
	}
	m, n := v.get(), w.get()
	return m == n || m.setting == n.setting && m.density == n.density && m.sheet.config.equal(&n.sheet.config)
}
