package valve

import (
	"errors"

	"github.com/indexrun/indexrun/internal/check"
	"github.com/indexrun/indexrun/units"
)

// addPartFaults adds the faults of one part of a valve, a port or a side, that
// was made as a two-way valve. What is the whole valve's is added with the first
// part only.
func addPartFaults(l *check.List, part string, first bool, err error) {
	joined, ok := err.(interface{ Unwrap() []error })
	if !ok {
		return
	}
	for _, e := range joined.Unwrap() {
		var fault *units.FieldError
		if !errors.As(e, &fault) {
			continue
		}
		if name := partField(part, fault.Field); name != "" {
			l.Fault(name, fault.Value, fault.Want)
		} else if first {
			l.Add(fault)
		}
	}
}

// partField returns the name of a field that belongs to a part, or nothing.
func partField(part, field string) string {
	switch field {
	case "Kvs", "Curve", "Rangeability", "ClosingTravel", "Leakage", "SeatArea":
		return part + "." + field
	case "Angle": // that of a side; a port has its valve's
		if part == "First" || part == "Second" {
			return part + ".Opening"
		}
	}
	return ""
}
