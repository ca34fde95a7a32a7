package standards

// Stem is a designation without what may differ between parts of one size: a bearing
// without its suffixes, a tyre without load, speed and use. Two parts with one stem
// have the same dimensions; whether one may stand in for the other is another
// question.
func Stem(d Designation) string {
	switch d := d.(type) {
	case Ball:
		return d.Basic
	case Roller:
		d.Suffixes = nil
		return d.String()
	case TaperMetric:
		return d.Basic
	case Seal:
		return d.size()
	case Tyre:
		d.Use, d.After, d.Service = "", "", Service{}
		return d.String()
	}
	return d.String()
}

// Halves gives the designations of the parts a set is made of; none for what is no
// set.
func Halves(d Designation) []string {
	if t, ok := d.(TaperInch); ok && t.Cone != "" && t.Cup != "" {
		return []string{t.Cone, t.Cup}
	}
	return nil
}

// ShortName is what is written for short where the kind is plain from the context:
// the dash number of an O-ring, the number of a battery's group; "" if that is the
// whole designation.
func ShortName(d Designation) string {
	switch d := d.(type) {
	case ORing:
		return d.Dash
	case Battery:
		return d.Group
	}
	return ""
}
