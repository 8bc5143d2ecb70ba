package control

// ZieglerNicholsPI returns the PI tuning of Ziegler & Nichols (Transactions of the
// ASME 64, 1942, 759–768) from the limit of stability:
//
//	K = 0.45·Ku,  Ti = Pu/1.2
//
// It aims at a swing that dies by a quarter each period, which is livelier than
// valves in buildings should be: take it as a bound, not as a setting.
func ZieglerNicholsPI(u Ultimate) Tuning {
	return tuning(0.45/float64(u.Band), u.Period.Seconds()/1.2, 0)
}

// ZieglerNicholsPID returns their PID tuning, with the same caution:
//
//	K = 0.6·Ku,  Ti = Pu/2,  Td = Pu/8
func ZieglerNicholsPID(u Ultimate) Tuning {
	return tuning(0.6/float64(u.Band), u.Period.Seconds()/2, u.Period.Seconds()/8)
}
