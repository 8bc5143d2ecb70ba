package hydronics

import "github.com/indexrun/indexrun/valve"

// controlled is what the actuator moves: the two-way valve, or the control port as
// one. The zero Circuit has none.
func (m *circuit) controlled() valve.Valve {
	switch m.kind {
	case noCircuit:
		return nil
	case regulatedInjection:
		return m.indep
	}
	return m.control.port
}

// withControlCurve is the circuit with another characteristic on the control port. A
// stated rangeability that the curve cannot have becomes its theoretical ratio.
func (m *circuit) withControlCurve(curve valve.Characteristic) (Circuit, error) {
	c := *m
	possible := func(rangeability float64) float64 { return min(rangeability, curve.TheoreticalRatio()) }
	var err error
	switch m.kind {
	case regulatedInjection:
		c.indep, err = regulatedWithCurve(m.indep, curve, possible)
	case throttledInjection:
		cfg := m.control.port.Config()
		cfg.Curve, cfg.Rangeability = curve, possible(cfg.Rangeability)
		c.control.port, err = valve.NewTwoWay(cfg)
	default:
		cfg := m.three.Config()
		cfg.Control.Curve, cfg.Control.Rangeability = curve, possible(cfg.Control.Rangeability)
		c.three, err = valve.NewThreeWay(cfg)
		c.control.port, c.bypass.port = c.three.Control(), c.three.Bypass()
	}
	if err != nil {
		return Circuit{}, err
	}
	return Circuit{&c}, nil
}

// regulatedWithCurve keeps the setting of the dial and the liquid.
func regulatedWithCurve(v valve.PressureIndependent, curve valve.Characteristic, possible func(float64) float64) (valve.PressureIndependent, error) {
	cfg := v.Config()
	cfg.Curve, cfg.Rangeability = curve, possible(cfg.Rangeability)
	bent, err := valve.NewPressureIndependent(cfg)
	if err != nil {
		return valve.PressureIndependent{}, err
	}
	if bent, err = bent.WithDensity(v.Density()); err != nil {
		return valve.PressureIndependent{}, err
	}
	return bent.WithMark(v.Mark())
}
