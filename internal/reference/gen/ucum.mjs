// UCUM codes of the units and their factors to SI, by an open UCUM library.
//
//   npm install --no-save --ignore-scripts --prefix "$TMP" @lhncbc/ucum-lhc@7.1.10
//   NODE_PATH="$TMP/node_modules" node gen/ucum.mjs > data/ucum.csv

import { require, version, writeTable } from './common.mjs';

const ucum = require('@lhncbc/ucum-lhc').UcumLhcUtils.getInstance();

// quantity → UCUM code of the SI unit, then the project's unit → UCUM code.
const units = {
  'flow': ['m3/s', {
    'm³/s': 'm3/s', 'm³/h': 'm3/h', 'l/s': 'L/s', 'l/min': 'L/min', 'l/h': 'L/h', 'US gpm': '[gal_us]/min' }],
  'mass flow': ['kg/s', { 'kg/s': 'kg/s', 'kg/h': 'kg/h', 'lb/h': '[lb_av]/h' }],
  'pressure': ['Pa', {
    'Pa': 'Pa', 'hPa': 'hPa', 'kPa': 'kPa', 'MPa': 'MPa', 'mbar': 'mbar', 'bar': 'bar',
    'mH2O': 'm[H2O]', 'mmH2O': 'mm[H2O]',
    'psi': '[psi]', 'ftH2O': "12.[in_i'H2O]", 'inH2O': "[in_i'H2O]" }],
  'temperature': ['K', { '°C': 'Cel', '°F': '[degF]', 'K': 'K' }],
  'temperature difference': ['K', { 'K': 'K', '°F': '[degR]' }],
  'power': ['W', {
    'W': 'W', 'kW': 'kW', 'MW': 'MW', 'Btu/h': '[Btu_IT]/h', 'kBtu/h': '1000.[Btu_IT]/h', 'TR': '12000.[Btu_IT]/h' }],
  'length': ['m', { 'm': 'm', 'km': 'km', 'mm': 'mm', 'µm': 'um', 'cm': 'cm', 'in': '[in_i]', 'ft': '[ft_i]' }],
  'area': ['m2', { 'm²': 'm2', 'cm²': 'cm2', 'mm²': 'mm2', 'in²': '[in_i]2', 'ft²': '[ft_i]2' }],
  'velocity': ['m/s', { 'm/s': 'm/s', 'ft/s': '[ft_i]/s' }],
  'density': ['kg/m3', { 'kg/m³': 'kg/m3', 'g/cm³': 'g/cm3', 'lb/ft³': '[lb_av]/[cft_i]' }],
  'dynamic viscosity': ['Pa.s', { 'Pa·s': 'Pa.s', 'mPa·s': 'mPa.s' }],
  'kinematic viscosity': ['m2/s', { 'm²/s': 'm2/s', 'mm²/s': 'mm2/s' }],
  'specific heat': ['J/(kg.K)', {
    'J/(kg·K)': 'J/(kg.K)', 'kJ/(kg·K)': 'kJ/(kg.K)', 'Btu/(lb·°F)': '[Btu_IT]/([lb_av].[degR])' }],
  'thermal conductivity': ['W/(m.K)', {
    'W/(m·K)': 'W/(m.K)', 'Btu/(h·ft·°F)': '[Btu_IT]/(h.[ft_i].[degR])' }],
  'thermal conductance': ['W/K', { 'W/K': 'W/K', 'kW/K': 'kW/K' }],
  'pressure gradient': ['Pa/m', {
    'Pa/m': 'Pa/m', 'kPa/m': 'kPa/m', 'ftH2O/100 ft': "12.[in_i'H2O]/(100.[ft_i])" }],
  'voltage': ['V', { 'V': 'V', 'mV': 'mV' }],
  'current': ['A', { 'A': 'A', 'mA': 'mA' }],
  'resistance': ['Ohm', { 'Ω': 'Ohm', 'kΩ': 'kOhm', 'mΩ': 'mOhm' }],
  'force': ['N', { 'N': 'N', 'kN': 'kN', 'lbf': '[lbf_av]' }],
  'torque': ['N.m', { 'N·m': 'N.m', 'lbf·in': '[lbf_av].[in_i]' }],
  'angle': ['rad', { 'rad': 'rad', '°': 'deg' }],
  'frequency': ['Hz', { 'Hz': 'Hz', 'kHz': 'kHz' }],
  'ratio': ['1', { '1': '1', '%': '%' }],
};

function convert(value, code, si) {
  const result = ucum.convertUnitTo(code, value, si);
  if (result.status !== 'succeeded') throw new Error(`${code} → ${si}: ${result.msg.join('; ')}`);
  return result.toVal;
}

function row(quantity, unit, code, si) {
  const check = ucum.validateUnitString(code);
  if (check.status !== 'valid' || check.ucumCode !== code) throw new Error(`${code}: ${check.msg.join('; ')}`);
  const offset = convert(0, code, si);
  // A unit with an offset: the library's own magnitude, since a difference of two images would lose digits.
  const factor = offset === 0 ? convert(1, code, si) : ucum.getSpecifiedUnit(code).unit.magnitude_;
  return [quantity, unit, code, /^\d+\./.test(code) ? 'expression' : 'code', factor, offset];
}

writeTable({
  law: 'UCUM code of each unit, with factor and offset to SI',
  source: 'Unified Code for Units of Measure, as carried by @lhncbc/ucum-lhc; every code validated by it',
  version: version('@lhncbc/ucum-lhc'),
  units: ['text', 'text', 'text', 'text', 'SI per unit', 'SI'],
  notes: [
    'SI value = value × factor + offset; the library rounds in double arithmetic, so the last digits of a factor are its own',
    'kind "expression": UCUM has no code of its own for the unit (ftH2O, kBtu/h, TR, ftH2O/100 ft), but allows a whole-number multiple of one that it has',
    'a temperature difference in °F is [degR]: [degF] is a scale with an offset, and UCUM forbids it inside products and quotients',
  ],
  columns: ['quantity', 'unit', 'ucum', 'kind', 'factor', 'offset'],
  rows: Object.entries(units).flatMap(([quantity, [si, codes]]) =>
    Object.entries(codes).map(([unit, code]) => row(quantity, unit, code, si))),
});
