package signal

import "github.com/indexrun/indexrun/units"

const packageName = "signal"

func fault(field, value, want string) error {
	return &units.FieldError{Package: packageName, Field: field, Value: value, Want: want}
}
