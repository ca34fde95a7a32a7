package fieldkit

import "strings"

// Quantities are whole numbers of a base unit fine enough that what people type
// in either system is kept exactly: an inch is 25 400 000 nm, a pound
// 453 592 370 000 ng, a fluid ounce 29 573 529 562 500 fL. Torques and pressures
// in US units have no finite decimal; they are kept to the nearest base unit,
// which is under one part in a million of any torque or pressure on a rig.
//
// Every quantity type reads text with Parse…, prints for people with Show (one
// system) and Both (the system read first, the other in brackets), and keeps
// itself in files as the shortest text that reads back to the same value.

// Named sizes.
const (
	Nanometre  Length = 1
	Millimetre Length = 1_000_000
	Inches     Length = 25_400_000 // exact: international yard and pound agreement, 1959

	Metre     Distance = 1_000
	Kilometre Distance = 1_000_000
	Mile      Distance = 1_609_344

	Gram     Mass = 1_000_000_000
	Kilogram Mass = 1_000_000_000_000
	Pound    Mass = 453_592_370_000 // exact, as above
	Ounce    Mass = 28_349_523_125

	Millilitre Volume = 1_000_000_000_000
	Litre      Volume = 1_000_000_000_000_000

	NewtonMetre Torque   = 1_000_000
	Kilopascal  Pressure = 1_000_000
)

// Length holds diameters, widths and hose lengths, in nanometres.
type Length int64

// ParseLength reads text such as "1-3/8" or "34.9 mm"; a bare number is taken in the
// usual unit of the system read first. Errors are of kind BadInput.
func ParseLength(text string, first System) (Length, error) {
	base, err := parseBase(text, DimLength, first)
	return Length(base), err
}

// Show prints the length as people of the system write it, rounded for reading.
func (q Length) Show(s System) string { return show(DimLength, int64(q), s) }

// Both prints the system read first, the other in brackets.
func (q Length) Both(first System) string { return showBoth(DimLength, int64(q), first) }

// String gives the exact text kept in files.
func (q Length) String() string { return exactText(DimLength, int64(q)) }

// MarshalText writes the exact text kept in files.
func (q Length) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads a length that must carry its unit. Errors are of kind BadInput.
func (q *Length) UnmarshalText(text []byte) error {
	base, err := parseWithUnit(string(text), DimLength)
	if err == nil {
		*q = Length(base)
	}
	return err
}

// Distance holds driven distances and odometers, in millimetres.
type Distance int64

// ParseDistance reads text such as "120 km"; a bare number is taken in the
// usual unit of the system read first. Errors are of kind BadInput.
func ParseDistance(text string, first System) (Distance, error) {
	base, err := parseBase(text, DimDistance, first)
	return Distance(base), err
}

// Show prints the distance as people of the system write it, rounded for reading.
func (q Distance) Show(s System) string { return show(DimDistance, int64(q), s) }

// Both prints the system read first, the other in brackets.
func (q Distance) Both(first System) string { return showBoth(DimDistance, int64(q), first) }

// String gives the exact text kept in files.
func (q Distance) String() string { return exactText(DimDistance, int64(q)) }

// MarshalText writes the exact text kept in files.
func (q Distance) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads a distance that must carry its unit. Errors are of kind BadInput.
func (q *Distance) UnmarshalText(text []byte) error {
	base, err := parseWithUnit(string(text), DimDistance)
	if err == nil {
		*q = Distance(base)
	}
	return err
}

// Mass holds weights of parts and kits, in nanograms.
type Mass int64

// ParseMass reads text such as "2 lb 4 oz"; a bare number is taken in the
// usual unit of the system read first. Errors are of kind BadInput.
func ParseMass(text string, first System) (Mass, error) {
	base, err := parseBase(text, DimMass, first)
	return Mass(base), err
}

// Show prints the mass as people of the system write it, rounded for reading.
func (q Mass) Show(s System) string { return show(DimMass, int64(q), s) }

// Both prints the system read first, the other in brackets.
func (q Mass) Both(first System) string { return showBoth(DimMass, int64(q), first) }

// String gives the exact text kept in files.
func (q Mass) String() string { return exactText(DimMass, int64(q)) }

// MarshalText writes the exact text kept in files.
func (q Mass) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads a mass that must carry its unit. Errors are of kind BadInput.
func (q *Mass) UnmarshalText(text []byte) error {
	base, err := parseWithUnit(string(text), DimMass)
	if err == nil {
		*q = Mass(base)
	}
	return err
}

// Volume holds fluids and the space in a bin, in femtolitres.
type Volume int64

// ParseVolume reads text such as "300 mL"; a bare number is taken in the
// usual unit of the system read first. Errors are of kind BadInput.
func ParseVolume(text string, first System) (Volume, error) {
	base, err := parseBase(text, DimVolume, first)
	return Volume(base), err
}

// Show prints the volume as people of the system write it, rounded for reading.
func (q Volume) Show(s System) string { return show(DimVolume, int64(q), s) }

// Both prints the system read first, the other in brackets.
func (q Volume) Both(first System) string { return showBoth(DimVolume, int64(q), first) }

// String gives the exact text kept in files.
func (q Volume) String() string { return exactText(DimVolume, int64(q)) }

// MarshalText writes the exact text kept in files.
func (q Volume) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads a volume that must carry its unit. Errors are of kind BadInput.
func (q *Volume) UnmarshalText(text []byte) error {
	base, err := parseWithUnit(string(text), DimVolume)
	if err == nil {
		*q = Volume(base)
	}
	return err
}

// Torque holds how tight a fastener is, in micronewton metres.
type Torque int64

// ParseTorque reads text such as "90 lb-ft"; a bare number is taken in the
// usual unit of the system read first. Errors are of kind BadInput.
func ParseTorque(text string, first System) (Torque, error) {
	base, err := parseBase(text, DimTorque, first)
	return Torque(base), err
}

// Show prints the torque as people of the system write it, rounded for reading.
func (q Torque) Show(s System) string { return show(DimTorque, int64(q), s) }

// Both prints the system read first, the other in brackets.
func (q Torque) Both(first System) string { return showBoth(DimTorque, int64(q), first) }

// String gives the exact text kept in files.
func (q Torque) String() string { return exactText(DimTorque, int64(q)) }

// MarshalText writes the exact text kept in files.
func (q Torque) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads a torque that must carry its unit. Errors are of kind BadInput.
func (q *Torque) UnmarshalText(text []byte) error {
	base, err := parseWithUnit(string(text), DimTorque)
	if err == nil {
		*q = Torque(base)
	}
	return err
}

// Pressure holds tyre, oil and steering pressures, in millipascals.
type Pressure int64

// ParsePressure reads text such as "35 psi"; a bare number is taken in the
// usual unit of the system read first. Errors are of kind BadInput.
func ParsePressure(text string, first System) (Pressure, error) {
	base, err := parseBase(text, DimPressure, first)
	return Pressure(base), err
}

// Show prints the pressure as people of the system write it, rounded for reading.
func (q Pressure) Show(s System) string { return show(DimPressure, int64(q), s) }

// Both prints the system read first, the other in brackets.
func (q Pressure) Both(first System) string { return showBoth(DimPressure, int64(q), first) }

// String gives the exact text kept in files.
func (q Pressure) String() string { return exactText(DimPressure, int64(q)) }

// MarshalText writes the exact text kept in files.
func (q Pressure) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads a pressure that must carry its unit. Errors are of kind BadInput.
func (q *Pressure) UnmarshalText(text []byte) error {
	base, err := parseWithUnit(string(text), DimPressure)
	if err == nil {
		*q = Pressure(base)
	}
	return err
}

// Temperature holds coolant and oil temperatures; the step makes 0.01 °C and 0.01 °F both whole numbers, in 1/1800 kelvin above absolute zero.
type Temperature int64

// ParseTemperature reads text such as "90 °C"; a bare number is taken in the
// usual unit of the system read first. Errors are of kind BadInput.
func ParseTemperature(text string, first System) (Temperature, error) {
	base, err := parseBase(text, DimTemperature, first)
	return Temperature(base), err
}

// Show prints the temperature as people of the system write it, rounded for reading.
func (q Temperature) Show(s System) string { return show(DimTemperature, int64(q), s) }

// Both prints the system read first, the other in brackets.
func (q Temperature) Both(first System) string { return showBoth(DimTemperature, int64(q), first) }

// String gives the exact text kept in files.
func (q Temperature) String() string { return exactText(DimTemperature, int64(q)) }

// MarshalText writes the exact text kept in files.
func (q Temperature) MarshalText() ([]byte, error) { return []byte(q.String()), nil }

// UnmarshalText reads a temperature that must carry its unit. Errors are of kind BadInput.
func (q *Temperature) UnmarshalText(text []byte) error {
	base, err := parseWithUnit(string(text), DimTemperature)
	if err == nil {
		*q = Temperature(base)
	}
	return err
}

// parseBase reads an amount and rounds it to the base unit.
func parseBase(text string, dim Dimension, first System) (int64, error) {
	return toBase(text, dim, usualSymbol(dim, first))
}

// parseWithUnit reads an amount that must name its unit, as files do.
func parseWithUnit(text string, dim Dimension) (int64, error) {
	return toBase(text, dim, "")
}

func toBase(text string, dim Dimension, fallback string) (int64, error) {
	if base, ok := quickBase(text, dim); ok {
		return base, nil
	}
	r, err := parseAmount(text, dim, fallback)
	if err != nil {
		return 0, err
	}
	base, ok := roundToInt64(r)
	if !ok {
		return 0, badInput(strings.TrimSpace(text)+" is beyond any "+noun(dim)+" on a rig", "check the number and its unit")
	}
	if dim == DimTemperature && base < 0 {
		return 0, badInput(strings.TrimSpace(text)+" is colder than anything can be", "check the number and its unit")
	}
	return base, nil
}

// usualSymbol is the unit a bare number is taken in.
func usualSymbol(dim Dimension, system System) string {
	for _, u := range units {
		if u.dim == dim && (u.system == system || u.system == "") {
			return u.symbol
		}
	}
	return ""
}
