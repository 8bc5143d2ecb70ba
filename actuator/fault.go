package actuator

import "github.com/indexrun/indexrun/units"

const packageName = "actuator"

func fault(field, value, want string) error {
	return &units.FieldError{Package: packageName, Field: field, Value: value, Want: want}
}
