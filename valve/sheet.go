package valve

import (
	"fmt"
	"math"
	"slices"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// sheet is what all settings of one pressure-independent valve share.
type sheet struct {
	config    PressureIndependentConfig
	whole     body
	regulator Regulator
}

func newSheet(cfg PressureIndependentConfig) (*sheet, error) {
	cfg.Settings = slices.Clone(cfg.Settings)
	l := check.List{Package: packageName}
	sh := &sheet{config: cfg, whole: newBody(&l, cfg.body())}
	sh.check(&l)
	if err := l.Err(); err != nil {
		return nil, err
	}
	sh.regulator = identify(sh.fullFlow())
	sh.checkRange(&l)
	return sh, l.Err()
}

func (c *PressureIndependentConfig) body() *bodyConfig {
	return &bodyConfig{curve: c.Curve, plainConfig: plainConfig{
		stroke: c.Stroke, angle: c.Angle, stem: c.Stem,
		closingTravel: c.ClosingTravel, rangeability: c.Rangeability, leakage: c.Leakage,
		seatArea: c.SeatArea, springForce: c.SpringForce, maxPressure: c.MaxPressure, density: c.Density,
	}}
}

// equal compares without ==, which a custom curve need not have.
func (c *PressureIndependentConfig) equal(d *PressureIndependentConfig) bool {
	return c.Curve.Equal(d.Curve) && slices.Equal(c.Settings, d.Settings) &&
		c.SettingKind == d.SettingKind && c.MinPressureShare == d.MinPressureShare &&
		c.ProportionalBand == d.ProportionalBand && c.body().equal(d.body())
}

func (s *sheet) table() settings { return s.config.Settings }

func (s *sheet) share() float64 {
	if s.config.MinPressureShare == 0 {
		return 1
	}
	return float64(s.config.MinPressureShare)
}

func (s *sheet) band() float64 {
	if s.config.ProportionalBand == 0 {
		return float64(DefaultProportionalBand)
	}
	return float64(s.config.ProportionalBand)
}

func (s *sheet) check(l *check.List) {
	c := &s.config
	s.table().check(l)
	check.Enum(l, "SettingKind", c.SettingKind, LiftLimiting)
	if c.MinPressureShare != 0 {
		check.Within(l, "MinPressureShare", c.MinPressureShare, 0.5, 1)
	}
	switch {
	case c.ProportionalBand < 0:
		l.Fault("ProportionalBand", c.ProportionalBand, "a flow that rises with the pressure: with a falling one a network need not have a single steady state")
	case c.ProportionalBand != 0:
		check.Within(l, "ProportionalBand", c.ProportionalBand, leastBand, 0.5)
	}
}

// leastBand keeps the regulated law invertible: the error of its inverse is
// 1e-16/band of the pressure range.
const leastBand units.Ratio = 1e-5

// checkRange checks what needs the regulator, row by row.
func (s *sheet) checkRange(l *check.List) {
	for i, row := range s.table() {
		field := fmt.Sprintf("Settings[%d].", i)
		full := s.fullFlowPressure(row)
		if limit := s.config.MaxPressure; limit > 0 && !l.Require(full < limit, field+"MinPressure", row.MinPressure,
			"a least pressure that leaves room for regulation below MaxPressure, "+limit.String()) {
			continue
		}
		l.Require(s.drift(full)*float64(full-s.control(full)) < 0.5, "ProportionalBand", s.config.ProportionalBand,
			"a band that the range from MinPressure to MaxPressure has room for: the flow must rise with the travel at every pressure")
		if s.config.SettingKind == LiftLimiting {
			l.Require(float64(row.Flow/s.table().last().Flow) > s.whole.closingPhi, field+"Flow", row.Flow,
				"a flow that the curve reaches above its closing region, more than "+
					(s.table().last().Flow*units.Flow(s.whole.closingPhi)).String())
		}
	}
}

// fullFlow returns the table with the least pressures for the whole flow.
func (s *sheet) fullFlow() settings {
	rows := slices.Clone(s.table())
	for i := range rows {
		rows[i].MinPressure = s.fullFlowPressure(rows[i])
	}
	return rows
}

// fullFlowPressure returns p_s of a row: on the square law of the wide-open
// regulator, MinPressure/share².
func (s *sheet) fullFlowPressure(row Setting) units.Pressure {
	share := s.share()
	return row.MinPressure / units.Pressure(share*share)
}

// control returns p_c at a setting: that of the regulator, but no more than the
// table leaves for it.
func (s *sheet) control(full units.Pressure) units.Pressure {
	return min(s.regulator.ControlPressure, full)
}

// drift returns g in 1/Pa at a setting.
func (s *sheet) drift(full units.Pressure) float64 {
	span := unstatedRange
	if s.config.MaxPressure > 0 {
		span = s.config.MaxPressure - full
	}
	return s.band() / float64(span)
}

// at returns the valve at a row of its table.
func (s *sheet) at(row Setting, rho units.Density) PressureIndependent {
	full := s.fullFlowPressure(row)
	control := s.control(full)
	m := &pressureIndependent{
		body: s.whole, limit: 1, scale: 1, setting: row, density: rho, sheet: s,
		flow:    float64(row.Flow) * lightness(rho),
		control: float64(control), excess: float64(full - control), drift: s.drift(full),
	}
	if s.config.SettingKind == LiftLimiting {
		m.limit = s.whole.inverse(float64(row.Flow / s.table().last().Flow))
		m.scale = 1 / s.whole.at(m.limit)
	}
	return PressureIndependent{m}
}

// lightness is the factor of every flow at given pressures: √(ρ0/ρ).
func lightness(rho units.Density) float64 {
	return math.Sqrt(float64(ReferenceDensity / rho))
}
