package wiring

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// solution holds the state of a ladder.
type solution struct {
	supply  []float64 // volts
	current []float64 // amperes, effective or direct
	seen    *mat.VecDense
	shift   *mat.VecDense // of the commons by the direct currents of the loads
	gain    *mat.Dense    // of the signals seen by the signals sent
}

// solve finds the state: with s the signals seen, g the conductances of the inputs and
// d the direct currents of the loads, s = sent − line·g·s − shift·d.
func (a *ladder) solve(c Config) (solution, error) {
	var s solution
	var loaded mat.Dense
	loaded.Mul(a.line, a.conductance)
	for i := range c.Devices {
		loaded.Set(i, i, loaded.At(i, i)+1)
	}
	s.gain = new(mat.Dense)
	if err := s.gain.Inverse(&loaded); err != nil {
		return solution{}, ErrOverload
	}
	coupling, open := a.supply, a.open
	if c.Supply.Kind == Direct {
		coupling, open = a.withSignalReturn(s.gain)
	}
	if err := s.draw(c, coupling, open); err != nil {
		return solution{}, err
	}
	direct := mat.NewVecDense(len(c.Devices), nil)
	for i, d := range c.Devices {
		direct.SetVec(i, d.Load.Rectification.wave(c.Supply.Kind).mean*s.current[i])
	}
	s.shift, s.seen = new(mat.VecDense), new(mat.VecDense)
	s.shift.MulVec(a.shift, direct)
	var net mat.VecDense
	net.SubVec(a.sent, s.shift)
	s.seen.MulVec(s.gain, &net)
	return s, nil
}

// withSignalReturn returns the coupling of the loads and their open voltage with the
// currents of the signals eliminated, which share the common with a direct supply. On
// an alternating supply their few microvolts add nothing to the effective value.
func (a *ladder) withSignalReturn(gain *mat.Dense) (coupling *mat.Dense, open *mat.VecDense) {
	var currents, back, mutual mat.Dense
	currents.Mul(a.conductance, gain)
	back.Mul(a.shift.T(), &currents)
	mutual.Mul(&back, a.shift)
	coupling, open = new(mat.Dense), new(mat.VecDense)
	coupling.Sub(a.supply, &mutual)
	open.MulVec(&back, a.sent)
	open.SubVec(a.open, open)
	return coupling, open
}

const (
	settled  = 1e-12 // of the open voltage: the square of it is what is left
	rebound  = 1e-9  // of the open voltage: more than rounding
	mostStep = 100
)

// draw finds the supply voltages u at which the loads draw what they are fed,
//
//	u = open − coupling·i(u)
//
// by Newton's method from u = open. The right side is concave and the derivative
// of the left less the right has an inverse without negative elements as long as the
// cable works, so that the voltages fall monotonically to the greatest solution (Ortega
// & Rheinboldt 1970, monotone Newton theorem); if one rises again, there is none.
func (s *solution) draw(c Config, coupling *mat.Dense, open *mat.VecDense) error {
	n := len(c.Devices)
	s.supply, s.current = make([]float64, n), make([]float64, n)
	copy(s.supply, open.RawVector().Data)
	jacobian, excess, step := mat.NewDense(n, n, nil), mat.NewVecDense(n, nil), mat.NewVecDense(n, nil)
	whole := float64(c.Supply.Voltage)
	for range mostStep {
		s.linearise(c, coupling, open, jacobian, excess)
		if err := step.SolveVec(jacobian, excess); err != nil {
			return ErrOverload
		}
		largest := 0.0
		for k, d := range step.RawVector().Data {
			s.supply[k] -= d
			largest = max(largest, math.Abs(d))
			if !(s.supply[k] > 0) || d < -rebound*whole {
				return ErrOverload
			}
		}
		if largest <= settled*whole {
			for k, d := range c.Devices {
				s.current[k], _ = d.Load.current(s.supply[k])
			}
			return nil
		}
	}
	return ErrOverload
}

// linearise sets the excess u − open + coupling·i(u) and its derivative.
func (s *solution) linearise(c Config, coupling *mat.Dense, open *mat.VecDense, jacobian *mat.Dense, excess *mat.VecDense) {
	for j := range c.Devices {
		excess.SetVec(j, s.supply[j]-open.AtVec(j))
	}
	for k, d := range c.Devices {
		crest := d.Load.Rectification.wave(c.Supply.Kind).rising
		i, slope := d.Load.current(s.supply[k])
		for j := range c.Devices {
			z := coupling.At(j, k) * crest
			excess.SetVec(j, excess.AtVec(j)+float64(z*i))
			jacobian.Set(j, k, z*slope)
		}
		jacobian.Set(k, k, jacobian.At(k, k)+1)
	}
}
