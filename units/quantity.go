package units

// Quantity names a kind of quantity: what a [Unit] measures.
type Quantity uint8

// The quantities of this package, one for each of its types.
const (
	QuantityRatio Quantity = iota
	QuantityFlow
	QuantityMassFlow
	QuantityPressure
	QuantityAbsolutePressure
	QuantityTemperature
	QuantityTemperatureDifference
	QuantityPower
	QuantityLength
	QuantityArea
	QuantityVelocity
	QuantityDensity
	QuantityDynamicViscosity
	QuantityKinematicViscosity
	QuantitySpecificHeat
	QuantityThermalConductivity
	QuantityThermalConductance
	QuantityPressureGradient
	QuantityFlowCoefficient
	QuantityVoltage
	QuantityCurrent
	QuantityResistance
	QuantityForce
	QuantityTorque
	QuantityAngle
	QuantityFrequency
)

// String returns the name in words, such as "mass flow".
func (q Quantity) String() string {
	if t := tableOf(q); t != nil {
		return t.name
	}
	return "unknown quantity"
}

// tables lists every table in the order of the Quantity constants.
var tables = [...]*table{
	QuantityRatio:                 &ratioTable,
	QuantityFlow:                  &flowTable,
	QuantityMassFlow:              &massFlowTable,
	QuantityPressure:              &pressureTable,
	QuantityAbsolutePressure:      &absolutePressureTable,
	QuantityTemperature:           &temperatureTable,
	QuantityTemperatureDifference: &temperatureDifferenceTable,
	QuantityPower:                 &powerTable,
	QuantityLength:                &lengthTable,
	QuantityArea:                  &areaTable,
	QuantityVelocity:              &velocityTable,
	QuantityDensity:               &densityTable,
	QuantityDynamicViscosity:      &dynamicViscosityTable,
	QuantityKinematicViscosity:    &kinematicViscosityTable,
	QuantitySpecificHeat:          &specificHeatTable,
	QuantityThermalConductivity:   &thermalConductivityTable,
	QuantityThermalConductance:    &thermalConductanceTable,
	QuantityPressureGradient:      &pressureGradientTable,
	QuantityFlowCoefficient:       &flowCoefficientTable,
	QuantityVoltage:               &voltageTable,
	QuantityCurrent:               &currentTable,
	QuantityResistance:            &resistanceTable,
	QuantityForce:                 &forceTable,
	QuantityTorque:                &torqueTable,
	QuantityAngle:                 &angleTable,
	QuantityFrequency:             &frequencyTable,
}

func tableOf(q Quantity) *table {
	if int(q) >= len(tables) {
		return nil
	}
	return tables[q]
}
