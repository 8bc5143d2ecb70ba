package actuator

import (
	"bytes"
	"encoding/json"
	"time"
)

// plainConfig is Config without its methods.
type plainConfig Config

// jsonConfig writes the running time as text over the field of Config.
type jsonConfig struct {
	plainConfig
	RunningTime string `json:",omitempty"`
}

// MarshalJSON writes quantities with their unit and the running time as text
// such as "1m15s". Do not embed a Config in a struct that is to be marshalled:
// make it a named field.
func (c Config) MarshalJSON() ([]byte, error) {
	j := jsonConfig{plainConfig: plainConfig(c)}
	if c.RunningTime != 0 {
		j.RunningTime = c.RunningTime.String()
	}
	return json.Marshal(j)
}

// UnmarshalJSON reads what MarshalJSON writes; fields left out keep their zero
// value, unknown fields are errors. The text of RunningTime is that of
// time.ParseDuration.
func (c *Config) UnmarshalJSON(data []byte) error {
	var j jsonConfig
	d := json.NewDecoder(bytes.NewReader(data))
	d.DisallowUnknownFields()
	if err := d.Decode(&j); err != nil {
		return err
	}
	if j.RunningTime != "" {
		t, err := time.ParseDuration(j.RunningTime)
		if err != nil {
			return fault("RunningTime", j.RunningTime, `a time with its unit, such as "75s" or "2m30s"`)
		}
		j.plainConfig.RunningTime = t
	}
	*c = Config(j.plainConfig)
	return nil
}
