package actuator

import (
	"bytes"
	"encoding/json"
	"errors"
	"time"
)

// plainConfig is Config without its methods.
type plainConfig Config

// jsonConfig writes the times as text over the fields of Config.
type jsonConfig struct {
	plainConfig
	RunningTime jsonTime `json:",omitempty"`
	SpringTime  jsonTime `json:",omitempty"`
}

// jsonTime is a duration as text; none is the empty text.
type jsonTime string

func timeText(t time.Duration) jsonTime {
	if t == 0 {
		return ""
	}
	return jsonTime(t.String())
}

func (t jsonTime) parse(field string) (time.Duration, error) {
	if t == "" {
		return 0, nil
	}
	d, err := time.ParseDuration(string(t))
	if err != nil {
		return 0, fault(field, string(t), `a time with its unit, such as "75s" or "2m30s"`)
	}
	return d, nil
}

// MarshalJSON writes quantities with their unit and the times as text
// such as "1m15s". Do not embed a Config in a struct that is to be marshalled:
// make it a named field.
func (c Config) MarshalJSON() ([]byte, error) {
	return json.Marshal(jsonConfig{plainConfig(c), timeText(c.RunningTime), timeText(c.SpringTime)})
}

// UnmarshalJSON reads what MarshalJSON writes; fields left out keep their zero
// value, unknown fields are errors. The text of the times is that of
// time.ParseDuration.
func (c *Config) UnmarshalJSON(data []byte) error {
	var j jsonConfig
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&j); err != nil {
		return err
	}
	running, runningErr := j.RunningTime.parse("RunningTime")
	spring, springErr := j.SpringTime.parse("SpringTime")
	if err := errors.Join(runningErr, springErr); err != nil {
		return err
	}
	*c = Config(j.plainConfig)
	c.RunningTime, c.SpringTime = running, spring
	return nil
}
