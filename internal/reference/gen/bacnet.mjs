// BACnet engineering-unit names and codes, from an open BACnet stack.
//
//   npm install --no-save --ignore-scripts --prefix "$TMP" @bacnet-js/client@3.3.2 bacstack@0.0.1-beta.14
//   NODE_PATH="$TMP/node_modules" node gen/bacnet.mjs > data/bacnet.csv

import { require, version, writeTable } from './common.mjs';

const enumeration = require('@bacnet-js/client').EngineeringUnits;
const second = require('bacstack/lib/enum.js').EngineeringUnits;

// quantity → the project's unit → name in the enumeration; null: it has none.
const units = {
  'flow': {
    'm³/s': 'cubic-meters-per-second', 'm³/h': 'cubic-meters-per-hour', 'l/s': 'liters-per-second',
    'l/min': 'liters-per-minute', 'l/h': 'liters-per-hour', 'US gpm': 'us-gallons-per-minute' },
  'mass flow': { 'kg/s': 'kilograms-per-second', 'kg/h': 'kilograms-per-hour', 'lb/h': 'pounds-mass-per-hour' },
  'pressure': {
    'Pa': 'pascals', 'hPa': 'hectopascals', 'kPa': 'kilopascals', 'MPa': null, 'mbar': 'millibars', 'bar': 'bars', 'mH2O': null,
    'mmH2O': 'millimeters-of-water', 'psi': 'pounds-force-per-square-inch', 'ftH2O': null, 'inH2O': 'inches-of-water' },
  'temperature': { '°C': 'degrees-celsius', '°F': 'degrees-fahrenheit', 'K': 'degrees-kelvin' },
  'temperature difference': { 'K': 'delta-degrees-kelvin', '°F': 'delta-degrees-fahrenheit' },
  'power': {
    'W': 'watts', 'kW': 'kilowatts', 'MW': 'megawatts', 'Btu/h': 'btus-per-hour', 'kBtu/h': 'kilo-btus-per-hour',
    'TR': 'tons-refrigeration' },
  'length': {
    'm': 'meters', 'km': 'kilometers', 'mm': 'millimeters', 'µm': 'micrometers', 'cm': 'centimeters',
    'in': 'inches', 'ft': 'feet' },
  'area': {
    'm²': 'square-meters', 'cm²': 'square-centimeters', 'mm²': null, 'in²': 'square-inches', 'ft²': 'square-feet' },
  'velocity': { 'm/s': 'meters-per-second', 'ft/s': 'feet-per-second' },
  'density': { 'kg/m³': 'kilograms-per-cubic-meter', 'g/cm³': 'grams-per-cubic-centimeter', 'lb/ft³': null },
  'dynamic viscosity': { 'Pa·s': 'pascal-seconds', 'mPa·s': null },
  'kinematic viscosity': { 'm²/s': null, 'mm²/s': null },
  'specific heat': { 'J/(kg·K)': 'joules-per-kilogram-degree-kelvin', 'kJ/(kg·K)': null, 'Btu/(lb·°F)': null },
  'thermal conductivity': { 'W/(m·K)': 'watts-per-meter-per-degree-kelvin', 'Btu/(h·ft·°F)': null },
  'thermal conductance': { 'W/K': null, 'kW/K': null },
  'pressure gradient': { 'Pa/m': null, 'kPa/m': null, 'ftH2O/100 ft': null },
  'voltage': { 'V': 'volts', 'mV': 'millivolts' },
  'current': { 'A': 'amperes', 'mA': 'milliamperes' },
  'resistance': { 'Ω': 'ohms', 'kΩ': 'kilohms', 'mΩ': 'milliohms' },
  'force': { 'N': 'newton', 'kN': null, 'lbf': null },
  'torque': { 'N·m': 'newton-meters', 'lbf·in': null },
  'angle': { 'rad': 'radians', '°': 'degrees-angular' },
  'frequency': { 'Hz': 'hertz', 'kHz': 'kilohertz' },
  'ratio': { '1': 'no-units', '%': 'percent' },
};

function code(name) {
  const key = name.toUpperCase().replaceAll('-', '_');
  const found = enumeration[key];
  if (!Number.isInteger(found)) throw new Error(`${name}: not in the enumeration`);
  if (second[key] !== found) throw new Error(`${name}: ${found} in one stack, ${second[key]} in the other`);
  return found;
}

const all = Object.entries(units).flatMap(([quantity, names]) =>
  Object.entries(names).map(([unit, name]) => ({ quantity, unit, name })));
const absent = all.filter(({ name }) => name === null).map(({ unit }) => unit);

writeTable({
  law: 'BACnet engineering-unit name and code of each unit',
  source: 'BACnetEngineeringUnits of ASHRAE 135 / ISO 16484-5, as carried by two open BACnet stacks of one lineage, which agree',
  version: `${version('@bacnet-js/client')}; bacstack ${require('bacstack/package.json').version}`,
  units: ['text', 'text', 'text', '1'],
  notes: [
    `the stacks carry ${Object.keys(second).length} codes and none for: ${absent.join(', ')}; editions of the standard later than theirs may`,
    'the names keep the spelling of the standard',
  ],
  columns: ['quantity', 'unit', 'name', 'code'],
  rows: all.filter(({ name }) => name !== null).map(({ quantity, unit, name }) => [quantity, unit, name, code(name)]),
});
