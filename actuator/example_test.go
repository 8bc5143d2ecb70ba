package actuator_test

import (
	"fmt"
	"os"
	"time"

	"github.com/indexrun/indexrun/actuator"
	"github.com/indexrun/indexrun/signal"
	"github.com/indexrun/indexrun/units"
)

// A 0–10 V drive on a push-to-close valve of 5 mm: what does 6.2 V do, and which
// signal opens the valve half way?
func Example() {
	act, err := actuator.New(actuator.Config{
		Input:      signal.Range0To10V(),
		Action:     actuator.Reverse,  // a rising signal retracts the stem
		ClosingEnd: actuator.Extended, // a push-to-close valve
		Shaping:    actuator.ZeroBasedEqualPercentage(50),
		Stroke:     5 * units.Millimetre,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	drive, err := act.MountOn(5 * units.Millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	p := drive.Respond(signal.Volts(6.2))
	fmt.Printf("6.2 V: %v, opening demand %.3f, travel %.3f, stem %s out\n",
		p.Status, p.Opening, p.Travel, drive.Stem(p).Fixed(units.Millimetre, 2))

	need, ok := drive.SignalFor(0.5)
	fmt.Printf("half open: %.3f V, %v\n", need.Number(), ok)
	// Output:
	// 6.2 V: in-range, opening demand 0.620, travel 0.210, stem 3.95 mm out
	// half open: 8.279 V, true
}

// Every failure, for both actions and both kinds of stem. Read it before power
// is first put on, and again for the open wire, which is the case that surprises.
// An open wire that a live-zero input reads as zero is below its live zero.
func ExampleWriteFailureTable() {
	if err := actuator.WriteFailureTable(os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output:
	// action                             direct         direct        reverse        reverse
	// stem                               push-to-close  push-to-open  push-to-close  push-to-open
	// 0 signal                           open           closed        closed         open
	// open wire: reads as zero           open           closed        closed         open
	// open wire: reads as full           closed         open          open           closed
	// open wire: noticed, holds          hold           hold          hold           hold
	// below live zero: as lowest signal  open           closed        closed         open
	// below live zero: holds             hold           hold          hold           hold
	// below live zero: to extended       closed         open          closed         open
	// below live zero: to retracted      open           closed        open           closed
	// power lost: holds                  hold           hold          hold           hold
	// power lost: spring extends         closed         open          closed         open
	// power lost: spring retracts        open           closed        open           closed
	// end stop not found, on the valve   closed         open          closed         open
}

// What does this one do when things go wrong?
func ExampleActuator_Outcome() {
	act, err := actuator.New(actuator.Config{
		Input: signal.Range4To20mA(), Action: actuator.Reverse, ClosingEnd: actuator.Extended,
		Stroke: 5 * units.Millimetre, PowerLoss: actuator.SpringExtends, BelowLiveZero: actuator.HoldBelowLiveZero,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for f := actuator.OnZeroSignal; f <= actuator.OnEndStopNotFound; f++ {
		fmt.Printf("%v: %v\n", f, act.Outcome(f))
	}
	// Output:
	// zero-signal: closed
	// open-wire: hold
	// below-live-zero: hold
	// power-loss: closed
	// end-stop-not-found: closed
}

// Three drives on a valve of 5 mm: set too short, set too long, and one of 10 mm
// that adapts itself.
func ExampleMounted_Mismatch() {
	show := func(mode actuator.StrokeMode, stroke units.Length) {
		act, err := actuator.New(actuator.Config{
			Input: signal.Range0To10V(), Action: actuator.Reverse, Stroke: stroke, StrokeMode: mode,
		})
		if err != nil {
			fmt.Println(err)
			return
		}
		drive, err := act.MountOn(5 * units.Millimetre)
		if err != nil {
			fmt.Println(err)
			return
		}
		m := drive.Mismatch()
		fmt.Printf("%v, %v: opens to %.2f, idle from %.2f to %.2f, %.0f %% of the resolution lost, found %v\n",
			mode, stroke, m.GreatestTravel, m.IdleFrom, m.IdleTo, 100*m.ResolutionLost, m.FoundTravel.Fixed(units.Millimetre, 1))
	}
	show(actuator.Fixed, 4*units.Millimetre)
	show(actuator.Fixed, 6.25*units.Millimetre)
	show(actuator.SelfAdapting, 10*units.Millimetre)
	// Output:
	// fixed, 4 mm: opens to 0.80, idle from 0.00 to 0.00, 0 % of the resolution lost, found 0.0 mm
	// fixed, 6.25 mm: opens to 1.00, idle from 0.80 to 1.00, 20 % of the resolution lost, found 0.0 mm
	// self-adapting, 10 mm: opens to 1.00, idle from 0.00 to 0.00, 50 % of the resolution lost, found 5.0 mm
}

// A self-adapting drive is powered up on a valve whose plug is stuck at 60 %. It
// tracks its signal and looks well; the found travel gives the fault away.
func ExampleDrive() {
	act, err := actuator.New(actuator.Config{
		Input: signal.Range0To10V(), Action: actuator.Reverse, Stroke: 10 * units.Millimetre,
		StrokeMode: actuator.SelfAdapting, RunningTime: 100 * time.Second,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	valve, err := act.MountOn(5 * units.Millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	stuck, err := valve.Obstructed(0, 0.6)
	if err != nil {
		fmt.Println(err)
		return
	}
	drive, err := actuator.NewDrive(stuck, 0.4)
	if err != nil {
		fmt.Println(err)
		return
	}
	took, _ := stuck.CalibrationTime(0.4)
	fmt.Println("calibration takes", took)
	for range 4 {
		s := drive.Step(20*time.Second, true, signal.Volts(10))
		fmt.Printf("%v, travel %.2f, found %s\n", s.State, s.Travel, s.FoundTravel.Fixed(units.Millimetre, 1))
	}
	// Output:
	// calibration takes 1m0s
	// calibrating, travel 0.20, found 0.0 mm
	// calibrating, travel 0.20, found 0.0 mm
	// tracking, travel 0.60, found 3.0 mm
	// tracking, travel 0.60, found 3.0 mm
}

// What happens to a drive that is powered on the bench: never do it.
func ExampleNewDriveWithoutValve() {
	act, err := actuator.New(actuator.Config{
		Input: signal.Range0To10V(), Stroke: 5 * units.Millimetre, RunningTime: 60 * time.Second,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	drive, err := actuator.NewDriveWithoutValve(act, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for range 3 {
		s := drive.Step(30*time.Second, true, signal.Volts(0))
		fmt.Printf("%v, stem %.0f %% out\n", s.State, 100*s.Extension)
	}
	// Output:
	// calibrating, stem 50 % out
	// end-stop-not-found, stem 100 % out
	// end-stop-not-found, stem 100 % out
}

// A drive of 120 N on a seat of 15 mm bore.
func ExampleActuator_CloseOff() {
	act, err := actuator.New(actuator.Config{
		Input: signal.Range0To10V(), ClosingEnd: actuator.Extended, Stroke: 5 * units.Millimetre, Force: 120 * units.Newton,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := act.CloseOff(actuator.Seat{
		Area:     units.CircleArea(15 * units.Millimetre),
		Friction: 10 * units.Newton,
		Spring:   25 * units.Newton,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("shuts against %s, with %s to spare\n", c.Pressure.Fixed(units.Kilopascal, 0), c.Spare.Fixed(units.Newton, 0))
	// Output:
	// shuts against 481 kPa, with 85 N to spare
}
