package wiring

// caution is printed with every result.
const caution = "Caution: isolate and lock off the supply, mains and 24 V alike, before touching a terminal. Mains work\n" +
	"is for licensed persons under the local code. Keep mains and 24 V wiring apart. Check the polarity: 24 V\n" +
	"on a signal terminal destroys outputs. Never power an actuator that is not mounted on its valve.\n" +
	"Calculated values do not replace a measurement at the terminals.\n"

// What is printed where it applies.
const (
	cautionTolerance = "Caution: a supply voltage is out of tolerance; what the drive does then is not known.\n"
	cautionHalfWave  = "Caution: half-wave loads draw a direct current from the transformer, which magnetises it; the ripple\n" +
		"on the signal is averaged only by drives that filter it.\n"
	cautionMixed = "Caution: half-wave and full-wave loads on one transformer with a shared common short half the bridge;\n" +
		"give each kind its own transformer unless the input of the full-wave drive is isolated from its supply.\n"
	cautionFullWave = "Caution: full-wave loads on a shared common: only drives whose input is isolated from their bridge\n" +
		"rectifier may be wired so.\n"
)
