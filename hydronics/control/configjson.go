package control

import (
	"bytes"
	"encoding/json"
	"strconv"
	"time"

	"github.com/indexrun/indexrun/units"
)

// textTime is a time as text such as "5m0s" in place of a bare number of
// nanoseconds.
type textTime time.Duration

func (t textTime) MarshalText() ([]byte, error) { return []byte(time.Duration(t).String()), nil }

func (t *textTime) UnmarshalText(text []byte) error {
	d, err := time.ParseDuration(string(text))
	if err != nil {
		return &units.FieldError{
			Package: packageName, Field: "time", Value: strconv.Quote(string(text)),
			Want: `a time with its unit, such as "75s" or "2m30s"`,
		}
	}
	*t = textTime(d)
	return nil
}

// decode reads JSON and refuses unknown fields.
func decode(data []byte, into any) error {
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	return d.Decode(into)
}

// The fields of the outer structs below hide those of the same name inside.
type (
	plainTuning Tuning
	jsonTuning  struct {
		plainTuning
		IntegralTime   textTime `json:",omitzero"`
		DerivativeTime textTime `json:",omitzero"`
	}

	plainProcess ProcessConfig
	jsonProcess  struct {
		plainProcess
		TimeConstant, DeadTime textTime `json:",omitzero"`
	}

	plainPlant PlantConfig
	jsonPlant  struct {
		plainPlant
		TimeConstant, DeadTime, LeastStep textTime `json:",omitzero"`
	}

	plainThreePoint ThreePointConfig
	jsonThreePoint  struct {
		plainThreePoint
		OpeningTime, ClosingTime, AssumedTime textTime `json:",omitzero"`
	}

	plainThermal ThermalConfig
	jsonThermal  struct {
		plainThermal
		Cycle, OpeningDelay, OpeningTime, TimeConstant textTime `json:",omitzero"`
	}
)

// MarshalJSON writes the times as text such as "5m0s".
func (t Tuning) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonTuning{plainTuning(t), textTime(t.IntegralTime), textTime(t.DerivativeTime)})
}

// UnmarshalJSON reads what MarshalJSON writes; unknown fields are errors.
func (t *Tuning) UnmarshalJSON(data []byte) error {
	var j jsonTuning
	if err := decode(data, &j); err != nil {
		return err
	}
	*t = Tuning(j.plainTuning)
	t.IntegralTime, t.DerivativeTime = time.Duration(j.IntegralTime), time.Duration(j.DerivativeTime)
	return nil
}

// MarshalJSON writes the times as text such as "5m0s".
func (c ProcessConfig) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonProcess{plainProcess(c), textTime(c.TimeConstant), textTime(c.DeadTime)})
}

// UnmarshalJSON reads what MarshalJSON writes; unknown fields are errors.
func (c *ProcessConfig) UnmarshalJSON(data []byte) error {
	var j jsonProcess
	if err := decode(data, &j); err != nil {
		return err
	}
	*c = ProcessConfig(j.plainProcess)
	c.TimeConstant, c.DeadTime = time.Duration(j.TimeConstant), time.Duration(j.DeadTime)
	return nil
}

// MarshalJSON writes the times as text such as "5m0s".
func (c PlantConfig) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonPlant{plainPlant(c), textTime(c.TimeConstant), textTime(c.DeadTime), textTime(c.LeastStep)})
}

// UnmarshalJSON reads what MarshalJSON writes; unknown fields are errors.
func (c *PlantConfig) UnmarshalJSON(data []byte) error {
	var j jsonPlant
	if err := decode(data, &j); err != nil {
		return err
	}
	*c = PlantConfig(j.plainPlant)
	c.TimeConstant, c.DeadTime, c.LeastStep = time.Duration(j.TimeConstant), time.Duration(j.DeadTime), time.Duration(j.LeastStep)
	return nil
}

// MarshalJSON writes the times as text such as "2m0s".
func (c ThreePointConfig) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonThreePoint{plainThreePoint(c), textTime(c.OpeningTime), textTime(c.ClosingTime), textTime(c.AssumedTime)})
}

// UnmarshalJSON reads what MarshalJSON writes; unknown fields are errors.
func (c *ThreePointConfig) UnmarshalJSON(data []byte) error {
	var j jsonThreePoint
	if err := decode(data, &j); err != nil {
		return err
	}
	*c = ThreePointConfig(j.plainThreePoint)
	c.OpeningTime, c.ClosingTime, c.AssumedTime = time.Duration(j.OpeningTime), time.Duration(j.ClosingTime), time.Duration(j.AssumedTime)
	return nil
}

// MarshalJSON writes the times as text such as "3m0s".
func (c ThermalConfig) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonThermal{
		plainThermal(c), textTime(c.Cycle), textTime(c.OpeningDelay), textTime(c.OpeningTime), textTime(c.TimeConstant),
	})
}

// UnmarshalJSON reads what MarshalJSON writes; unknown fields are errors.
func (c *ThermalConfig) UnmarshalJSON(data []byte) error {
	var j jsonThermal
	if err := decode(data, &j); err != nil {
		return err
	}
	*c = ThermalConfig(j.plainThermal)
	c.Cycle, c.OpeningDelay = time.Duration(j.Cycle), time.Duration(j.OpeningDelay)
	c.OpeningTime, c.TimeConstant = time.Duration(j.OpeningTime), time.Duration(j.TimeConstant)
	return nil
}
