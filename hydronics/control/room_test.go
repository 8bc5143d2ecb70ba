package control_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/indexrun/indexrun/hydronics/control"
	"github.com/indexrun/indexrun/hydronics/terminal"
	"github.com/indexrun/indexrun/units"
)

// lossy is a room that loses 1000 W at 30 K, in ten hours.
var lossy = control.PlantConfig{Conductance: 1000.0 / 30 * units.WattPerKelvin, TimeConstant: 10 * time.Hour, DeadTime: 5 * time.Minute}

// Terminals of 1000 W at 20 °C in the room, whose flow is in proportion to the travel.
func radiatorRoom(t tb) (minds control.RoomHeatCurve, ignores control.HeatCurve) {
	r, err := terminal.NewRadiator(terminal.RadiatorConfig{RatedHeat: 1000 * units.Watt})
	require.NoError(t, err)
	return withRoom(r)
}

func floorRoom(t tb) (minds control.RoomHeatCurve, ignores control.HeatCurve) {
	f, err := terminal.NewFloor(terminal.FloorConfig{
		Conductance: 1000 / logMean(40, 35, 20) * units.WattPerKelvin, Area: 20 * units.SquareMetre,
		Design: terminal.Temperatures{Supply: units.Celsius(40), Return: units.Celsius(35), Air: units.Celsius(20)},
	})
	require.NoError(t, err)
	return withRoom(f)
}

func withRoom(x terminal.Terminal) (control.RoomHeatCurve, control.HeatCurve) {
	design := x.Design().Flow
	return func(h float64, _, room units.Temperature) units.Power {
			return x.Output(units.Flow(h)*design, terminal.Conditions{Air: room}).Heat
		}, func(h float64, _ units.Temperature) units.Power {
			return x.Heat(units.Flow(h) * design)
		}
}

func logMean(supply, back, room float64) units.ThermalConductance {
	return units.ThermalConductance((supply - back) / math.Log((supply-room)/(back-room)))
}

// roomByHand is where the room comes to rest by the laws themselves, with plain numbers: the
// water gives C·(supply − back), the terminal 1000 W·(ΔT/ΔTn)^n with the logarithmic mean (EN 442-2;
// EN 1264-2 for n = 1), the room loses 1000/30 W/K to the base. For a return the
// room follows from the balance of water and room, and the return by bisection.
func roomByHand(share, supply, designReturn, n, base float64) float64 {
	water := share * 1000 / (supply - designReturn) // W/K
	rated := float64(logMean(supply, designReturn, 20))
	low, high := base, supply
	for range 200 {
		back := (low + high) / 2
		heat := water * (supply - back)
		room := base + heat*30/1000
		if room < back && 1000*math.Pow(float64(logMean(supply, back, room))/rated, n) > heat {
			high = back // it gives more: the return is colder
		} else {
			low = back
		}
	}
	return base + water*(supply-high)*30/1000
}

func room(t tb, heat control.RoomHeatCurve, base units.Temperature) *control.Plant {
	p, err := control.NewRoom(lossy, heat, 0, base)
	require.NoError(t, err)
	return p
}

// A room comes to rest where the laws of terminal, water and room meet, and its process is the
// slope of that. The heat that does not mind the room has a gain up to 2.2 times as high.
func TestRoomProcess(t *testing.T) {
	const base = -5.0
	radiator, radiatorIgnores := radiatorRoom(t)
	floor, floorIgnores := floorRoom(t)
	for name, c := range map[string]struct {
		minds             control.RoomHeatCurve
		ignores           control.HeatCurve
		supply, back, n   float64
		gain, wrong, over float64 // K, K
	}{
		"radiator": {radiator, radiatorIgnores, 75, 65, 1.3, 11.7, 18.2, 1.5},
		"floor":    {floor, floorIgnores, 40, 35, 1, 8.1, 18.2, 2.2},
	} {
		t.Run(name, func(t *testing.T) {
			hand := func(h float64) float64 { return roomByHand(h, c.supply, c.back, c.n, base) }
			plant := room(t, c.minds, units.Celsius(base))
			for _, h := range []float64{0.03, 0.2, 0.5, 1} {
				plant.Settle(h, units.Celsius(base))
				assert.InDelta(t, hand(h), plant.Temperature().Celsius(), 1e-6, "travel %v", h)
			}
			plant.Settle(0, units.Celsius(base))
			assert.InDelta(t, base, plant.Temperature().Celsius(), 1e-9)

			at := control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(base)}
			p, err := control.LoopConfig{Element: control.Ideal{}, Plant: plant}.Process(at, 0.1)
			require.NoError(t, err)
			o := travelFor(hand, 20)
			gain := (hand(o+0.05) - hand(o-0.05)) / 0.1
			assert.InEpsilon(t, gain, float64(p.Config().Gain), 1e-6)

			held, err := control.NewPlant(lossy, c.ignores, 0, units.Celsius(base))
			require.NoError(t, err)
			q, err := control.LoopConfig{Element: control.Ideal{}, Plant: held}.Process(at, 0.1)
			require.NoError(t, err)
			assert.InDelta(t, c.gain, float64(p.Config().Gain), 0.15, "of a review by hand")
			assert.InDelta(t, c.wrong, float64(q.Config().Gain), 0.15, "of a review by hand")
			assert.InDelta(t, c.over, float64(q.Config().Gain/p.Config().Gain), 0.1)
			assert.Equal(t, lossy.TimeConstant, q.Config().TimeConstant)

			// The slope of the heat by the room from the same hand calculation: at the same travel a
			// base that is b higher leaves the room b/(1 − heat′/Conductance) warmer.
			const b = 1e-3
			ratio := (roomByHand(o, c.supply, c.back, c.n, base+b) - roomByHand(o, c.supply, c.back, c.n, base-b)) / (2 * b)
			assert.InEpsilon(t, ratio*lossy.TimeConstant.Seconds(), p.Config().TimeConstant.Seconds(), 1e-4)
		})
	}
}

// travelFor inverts a rising function of 0 … 1.
func travelFor(f func(float64) float64, y float64) float64 {
	low, high := 0.0, 1.0
	for range 60 {
		if x := (low + high) / 2; f(x) < y {
			low = x
		} else {
			high = x
		}
	}
	return low
}

// A step response of a heat that is straight over the room's temperature, in closed form, in
// steps of any length: with E the conductance from room to water and G that of the room, T goes to
// (G·base + E·supply)/(G + E) with a time constant of τ·G/(G + E).
func TestRoomStepResponse(t *testing.T) {
	const e, g, supply, base = 60.0, 1000.0 / 30, 40.0, -5.0
	heat := func(h float64, _, room units.Temperature) units.Power {
		return units.Power(h * e * float64(units.Celsius(supply).Sub(room)))
	}
	for _, step := range []time.Duration{time.Second, 47 * time.Second, 5 * time.Minute, time.Hour, 30 * time.Hour} {
		p := room(t, heat, units.Celsius(base))
		for k := 1; k < 300; k++ {
			got := p.Step(step, 1, units.Celsius(base)).Celsius()
			since := (time.Duration(k)*step - lossy.DeadTime).Seconds()
			if since <= 0 {
				assert.InDelta(t, base, got, 1e-9, "dead time is exact")
				continue
			}
			end := (g*base + e*supply) / (g + e)
			want := base + (end-base)*-math.Expm1(-since/(lossy.TimeConstant.Seconds()*g/(g+e)))
			assert.InDelta(t, want, got, 1e-7, "step %v, time %v s", step, since)
		}
	}
}

// A radiator's response is the same for steps that are a thousand times shorter, within what is
// said of it, and comes to rest at the fixed point.
func TestRoomStepsOfARadiator(t *testing.T) {
	heat, _ := radiatorRoom(t)
	long, short := room(t, heat, units.Celsius(-5)), room(t, heat, units.Celsius(-5))
	worst := 0.0
	for range 30 {
		long.Step(2*time.Hour, 0.6, units.Celsius(-5))
		for range 1000 {
			short.Step(7200*time.Millisecond, 0.6, units.Celsius(-5))
		}
		worst = max(worst, math.Abs(float64(long.Temperature().Sub(short.Temperature()))))
	}
	way := roomByHand(0.6, 75, 65, 1.3, -5) + 5
	assert.Less(t, worst, 2e-4*way)
	assert.InDelta(t, way-5, long.Step(1000*time.Hour, 0.6, units.Celsius(-5)).Celsius(), 1e-6)
}

// A cooled room, and one whose terminal is shut or follows the base, settle where their steps lead.
func TestRoomSettlesWhereItsStepsLead(t *testing.T) {
	heat := func(h float64, base, room units.Temperature) units.Power {
		supply := units.Celsius(45 - base.Celsius()) // colder the warmer it is outdoors
		d := float64(supply.Sub(room))
		return units.Power(h * 20 * math.Copysign(math.Pow(math.Abs(d), 1.1), d))
	}
	rapid.Check(t, func(t *rapid.T) {
		base := units.Celsius(rapid.Float64Range(-10, 35).Draw(t, "base"))
		h := rapid.Float64Range(0, 1).Draw(t, "travel")
		p, q := room(t, heat, base), room(t, heat, base)
		p.Settle(h, base)
		assert.InDelta(t, p.Temperature().Celsius(), p.Step(50*time.Hour, h, base).Celsius(), 1e-8)
		assert.InDelta(t, p.Temperature().Celsius(), q.Step(700*time.Hour, h, base).Celsius(), 1e-6)
	})
}

func TestRoomInALoop(t *testing.T) {
	heat, _ := radiatorRoom(t)
	plant := room(t, heat, units.Celsius(0))
	cfg := control.LoopConfig{Element: control.Ideal{}, Plant: plant, Cycle: time.Minute}
	at := control.Conditions{SetPoint: units.Celsius(20), Base: units.Celsius(0)}
	p, err := cfg.Process(at, 0.1)
	require.NoError(t, err)
	cfg.Controller = newController(t, control.Config{Tuning: control.SIMC(p, time.Hour)})
	loop, err := control.NewLoop(cfg)
	require.NoError(t, err)
	m := loop.Settle(at)
	assert.InDelta(t, 20, m.Temperature.Celsius(), 1e-9)
	assert.InDelta(t, 20, roomByHand(m.Travel, 75, 65, 1.3, 0), 1e-6)
	series := control.NewSeries(time.Minute, 12*time.Hour)
	loop.Run(stays(at), &series)
	for _, d := range series.Deviation {
		require.InDelta(t, 0, float64(d), 1e-6, "at rest it stays there")
	}
	assert.Zero(t, testing.AllocsPerRun(10, func() { loop.Step(time.Second, at) }))
}

func TestRoomRefusesAndNaN(t *testing.T) {
	_, err := control.NewRoom(lossy, nil, 0, units.Celsius(0))
	require.ErrorIs(t, err, units.ErrInvalid)
	assert.ErrorContains(t, err, "HeatCurve")
	heat, _ := radiatorRoom(t)
	p := room(t, heat, units.Celsius(0))
	assert.True(t, math.IsNaN(p.Step(time.Hour, math.NaN(), units.Celsius(0)).Kelvin()))
	p.Settle(1, units.Celsius(math.NaN()))
	assert.True(t, math.IsNaN(p.Temperature().Kelvin()))
	p.Settle(0, units.Celsius(3))
	assert.InDelta(t, 3, p.Temperature().Celsius(), 1e-9)
}

// A table of a room's terminal is within what is said of it, straight over its ends, and clamped
// beyond them; the rooms that it makes differ by less than a tenth of a kelvin.
func TestRoomTabulated(t *testing.T) {
	heat, _ := radiatorRoom(t)
	base, rooms := units.Celsius(-5), [2]units.Temperature{units.Celsius(5), units.Celsius(35)}
	table := heat.Tabulated(64, [2]units.Temperature{base, base}, rooms)
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(0, 1).Draw(t, "travel")
		room := units.Celsius(rapid.Float64Range(5, 35).Draw(t, "room"))
		if h > 0.1 {
			assert.InDelta(t, float64(heat(h, base, room)), float64(table(h, base, room)), 1)
		}
		assert.InDelta(t, float64(heat(h, base, room)), float64(table(h, base, room)), 20, "steep where it is nearly shut")
	})
	for _, room := range rooms {
		assert.InDelta(t, float64(heat(1, base, room)), float64(table(1, base, room)), 1e-9)
		assert.InDelta(t, float64(heat(0.25, base, room)), float64(table(0.25, base, room)), 1e-9)
	}
	assert.InDelta(t, float64(heat(1, base, rooms[1])), float64(table(2, base, units.Celsius(70))), 1e-9)
	assert.True(t, math.IsNaN(float64(table(1, units.Celsius(math.NaN()), rooms[0]))))
	assert.True(t, math.IsNaN(float64(table(math.NaN(), base, rooms[0]))))

	weather := control.RoomHeatCurve(func(h float64, base, room units.Temperature) units.Power {
		return units.Power(h * (50 - base.Celsius()) * (70 - room.Celsius()))
	})
	bases := [2]units.Temperature{units.Celsius(20), units.Celsius(-20)}
	straight := weather.Tabulated(3, bases, rooms)
	at, in := units.Celsius(3.3), units.Celsius(17)
	assert.InDelta(t, float64(weather(0.7, at, in)), float64(straight(0.7, at, in)), 1e-9, "a product of straight lines comes back")

	a, b := room(t, heat, base), room(t, table, base)
	for _, h := range []float64{0.2, 0.6, 1} {
		a.Settle(h, base)
		b.Settle(h, base)
		assert.InDelta(t, 0, float64(a.Temperature().Sub(b.Temperature())), 0.1)
	}
}
