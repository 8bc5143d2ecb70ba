package control

// AMIGOPI returns the PI tuning of Åström & Hägglund, "Revisiting the
// Ziegler–Nichols step response method for PID control", Journal of Process
// Control 14, 2004, 635–650 (formulas from memory; Advanced PID Control, 2006,
// repeats them). It aims at Ms = 1.4 and is calmer than that where lag and dead time are
// alike:
//
//	K  = 1/Gain·( 0.15 + (0.35 − θτ/(θ+τ)²)·τ/θ )
//	Ti = 0.35θ + 13θτ²/(τ² + 12θτ + 7θ²)
func AMIGOPI(p Process) Tuning {
	gain, lag, dead := p.numbers()
	sum := dead + lag
	k := (0.15 + float64((0.35-dead*lag/(sum*sum))*lag/dead)) / gain
	ti := float64(0.35*dead) + 13*dead*lag*lag/(float64(lag*lag)+float64(12*dead*lag)+float64(7*dead*dead))
	return tuning(k, ti, 0)
}

// AMIGOPID returns the PID tuning of the same paper (from memory), also for
// Ms = 1.4:
//
//	K  = 1/Gain·( 0.2 + 0.45τ/θ )
//	Ti = (0.4θ + 0.8τ)/(θ + 0.1τ)·θ
//	Td = 0.5θτ/(0.3θ + τ)
//
// With it the authors advise a SetPointReduction of 1 where θ < τ, and 0 otherwise (from
// memory). Where the lag rules its gain is high: mind the noise of the sensor and the wear of
// the actuator.
func AMIGOPID(p Process) Tuning {
	gain, lag, dead := p.numbers()
	k := (0.2 + float64(0.45*lag/dead)) / gain
	ti := (float64(0.4*dead) + float64(0.8*lag)) / (dead + float64(0.1*lag)) * dead
	td := 0.5 * dead * lag / (float64(0.3*dead) + lag)
	return tuning(k, ti, td)
}
