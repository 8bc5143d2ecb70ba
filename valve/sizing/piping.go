package sizing

// Numerical constants of IEC 60534-2-1:2011, Table 1 (from memory, and as
// python3-fluids has them), for Kv, m³/h, bar, mm and m²/s. N1 is 1 with bar in place of kPa.
const (
	n2  = 1.6e-3
	n4  = 7.07e-2
	n18 = 0.865
	n19 = 2.5
	n32 = 140.0

	referenceDensity = 999.10 // ρ0, kg/m³: water at 15 °C, IEC 60534-1
)

// addReducers puts the loss coefficients of the pipes into the law, by IEC
// 60534-2-1:2011, 8.2 and 8.3, equations (15) and (21) (from memory):
//
//	FP  = 1/√(1 + (ζ1+ζB1+ζ2−ζB2)/N2·(c/d²)²)
//	FLP = FL/√(1 + FL²·(ζ1+ζB1)/N2·(c/d²)²)
//
// perHead is 1/(N2·d⁴).
func (l *law) addReducers(c *Case, perHead float64) {
	if c.InletPipe > 0 {
		ratio := float64(c.Valve.Diameter / c.InletPipe)
		ratio *= ratio
		l.bend *= ratio * ratio
		l.through = inletLoss(ratio) * perHead
		l.inlet = l.fl * l.fl * l.through
	}
	if c.OutletPipe > 0 {
		ratio := float64(c.Valve.Diameter / c.OutletPipe)
		l.through += float64(outletLoss(ratio*ratio) * perHead)
	}
}

// inletLoss returns ζ1 + ζB1, what an inlet reducer and the change of velocity
// head cost, in velocity heads at the valve's diameter. ratio is (d/D1)².
//
//	ζ1 = 0.5·(1 − (d/D1)²)²,  ζB1 = 1 − (d/D1)⁴
//
// IEC 60534-2-1:2011, 8.2, equations (18) and (17) (from memory).
func inletLoss(ratio float64) float64 {
	return float64(0.5*(1-ratio)*(1-ratio)) + bernoulli(ratio)
}

// outletLoss returns ζ2 − ζB2 for an outlet expander with ratio (d/D2)². It is never
// above zero: the expander regains more than it loses.
//
//	ζ2 = 1.0·(1 − (d/D2)²)²,  ζB2 = 1 − (d/D2)⁴
//
// IEC 60534-2-1:2011, 8.2, equations (19) and (17) (from memory).
func outletLoss(ratio float64) float64 {
	return float64((1-ratio)*(1-ratio)) - bernoulli(ratio)
}

// bernoulli returns ζB = 1 − (d/D)⁴.
func bernoulli(ratio float64) float64 { return (1 - ratio) * (1 + ratio) }
