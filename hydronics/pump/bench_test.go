package pump_test

import (
	"testing"

	"github.com/indexrun/indexrun/units"
)

// There is no budget for pumps but zero allocations: a network calls the head
// and its slope once for each pump and step.

func BenchmarkHead(b *testing.B) {
	p := mustPump(b, circulator())
	benchmark(b, func(x float64) float64 { return float64(p.Head(litres(x))) })
}

func BenchmarkFlow(b *testing.B) {
	p := mustPump(b, circulator())
	benchmark(b, func(x float64) float64 { return float64(p.Flow(units.Pressure(30+10*x) * units.Kilopascal)) })
}

func BenchmarkOperate(b *testing.B) {
	p, s := mustPump(b, circulator()), mustSystem(b, 0, litres(1.5), 30*units.Kilopascal)
	benchmark(b, func(float64) float64 { return float64(p.Operate(s).Electric) })
}

func BenchmarkOperateUnequal(b *testing.B) {
	p, s := mustPump(b, circulator()), mustSystem(b, 0, litres(1.5), 30*units.Kilopascal)
	weak, err := p.AtSpeed(0.9)
	if err != nil {
		b.Fatal(err)
	}
	bank := mustParallel(b, p, weak)
	benchmark(b, func(float64) float64 { return float64(bank.Operate(s).Electric) })
}

func BenchmarkControlled(b *testing.B) {
	c := mustControl(b, setLines()["proportional"], mustPump(b, circulator()))
	benchmark(b, func(x float64) float64 { return float64(c.State(litres(x)).Electric) })
}

func benchmark(b *testing.B, law func(x float64) float64) {
	b.ReportAllocs()
	var sum float64
	for i := 0; b.Loop(); i++ {
		sum += law(0.2 + 0.2*float64(i%8))
	}
	_ = sum
}
