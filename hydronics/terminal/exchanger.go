package terminal

// exchanger is a coil as ε-NTU sees it: two capacity rates and two resistances.
type exchanger struct {
	arrangement Arrangement
	air         float64 // capacity rate of the air, W/K
	resistance  float64 // 1/UA at design flow, K/W
	side        waterSide
}

// heat is ε·Cmin·|θs − θa|.
func (e *exchanger) heat(q, capacity, excess float64) float64 {
	water := capacity * q
	return e.transfer(1/(e.airResistance()+e.waterResistance(q)), water, e.air) * excess
}

// transfer is ε·Cmin.
func (e *exchanger) transfer(ua, water, air float64) float64 {
	return e.arrangement.effectiveness(ua, water, air) * min(water, air)
}

// airResistance is that of the air with the wall, which the water does not change.
func (e *exchanger) airResistance() float64 { return e.resistance * (1 - e.side.share) }

func (e *exchanger) waterResistance(q float64) float64 {
	return e.resistance * e.side.resistance(q)
}
