package pipe_test

import (
	"fmt"
	"log"

	"github.com/indexrun/indexrun/hydronics/pipe"
	"github.com/indexrun/indexrun/units"
)

// The loss of a branch of steel pipe with six elbows and two ball valves, and
// the flow that a given pressure drives through it.
func ExamplePipe() {
	dn25 := pipe.EN10255Medium()[3]
	elbow, err := pipe.ThreadedElbow90.Loss(dn25.Nominal)
	if err != nil {
		log.Fatal(err)
	}
	valve, err := pipe.BallValve.Loss(dn25.Nominal)
	if err != nil {
		log.Fatal(err)
	}
	branch, err := pipe.New(pipe.Config{
		Length:    24 * units.Metre,
		Bore:      dn25.Bore(),
		Roughness: pipe.CommercialSteel.Roughness(),
		Losses:    elbow.Times(6).Plus(valve.Times(2)),
		Density:   998.2 * units.KilogramPerCubicMetre, // water at 20 °C
		Viscosity: 1.002 * units.MillipascalSecond,
	})
	if err != nil {
		log.Fatal(err)
	}

	q := 0.4 * units.LitrePerSecond
	fmt.Printf("Re %.0f, %s, %s, %s in all\n", branch.Reynolds(q),
		branch.Velocity(q).Fixed(units.MetrePerSecond, 2),
		branch.Gradient(q).Fixed(units.PascalPerMetre, 0),
		branch.Pressure(q).Fixed(units.Kilopascal, 2))
	fmt.Println(branch.Flow(10*units.Kilopascal).Fixed(units.LitrePerSecond, 3))
	// Output:
	// Re 18585, 0.68 m/s, 253 Pa/m, 7.15 kPa in all
	// 0.480 l/s
}

// The smallest steel tube under 300 Pa/m and 1.0 m/s.
func ExampleSizing_Smallest() {
	sizing, err := pipe.NewSizing(pipe.SizingConfig{
		Sizes:       pipe.EN10255Medium(),
		Roughness:   pipe.CommercialSteel.Roughness(),
		Density:     998.2 * units.KilogramPerCubicMetre,
		Viscosity:   1.002 * units.MillipascalSecond,
		MaxGradient: 300 * units.PascalPerMetre,
		MaxVelocity: 1.0 * units.MetrePerSecond,
	})
	if err != nil {
		log.Fatal(err)
	}
	for _, q := range []units.Flow{0.4 * units.LitrePerSecond, 10 * units.LitrePerSecond} {
		choice, err := sizing.Smallest(q)
		if err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: %s, %s, %s\n  governed by the %v: %s\n", q.Fixed(units.LitrePerSecond, 1), choice.Size.Name,
			choice.Gradient.Fixed(units.PascalPerMetre, 0), choice.Velocity.Fixed(units.MetrePerSecond, 2),
			choice.Governs, sizing.Explain(choice))
	}
	// Output:
	// 0.4 l/s: DN25, 253 Pa/m, 0.68 m/s
	//   governed by the gradient: EN 10255 medium DN20 would lose 788 Pa/m, above 300 Pa/m
	// 10.0 l/s: DN125, 44 Pa/m, 0.76 m/s
	//   governed by the velocity: EN 10255 medium DN100 would have 1.15 m/s, above 1.00 m/s
}

// The check value that the project was given: Re 10⁵, ε/D 10⁻⁴.
func ExampleFrictionFactor() {
	f, err := pipe.FrictionFactor(1e5, 1e-4)
	fmt.Printf("%.8f %v\n", f, err)
	_, err = pipe.FrictionFactor(0, 1.5)
	fmt.Println(err)
	// Output:
	// 0.01851387 <nil>
	// pipe: Re: got 0, want a Reynolds number of 1e-150 … 1e150
	// pipe: relative roughness: got 1.5, want 0 … 0.05
}

// A strainer of Kv 6.3 as a loss in DN20 tube, then by the velocity in DN25.
func ExampleLossOfKv() {
	sizes := pipe.EN10255Medium()
	strainer, err := pipe.LossOfKv(6.3*units.Kv, sizes[2].Bore())
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.2f %.2f\n", strainer.Constant, strainer.Rebase(sizes[2].Bore(), sizes[3].Bore()).Constant)
	// Output:
	// 8.94 22.40
}
