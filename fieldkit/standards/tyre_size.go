package standards

import (
	"strconv"

	"trailfieldkit/fieldkit"
)

// What a tyre of a rig may measure; beyond is a slip of the pen.
const (
	narrowestMetric, widestMetric = 75 * fieldkit.Millimetre, 495 * fieldkit.Millimetre
	lowestAspect, highestAspect   = 20, 100
	smallestOverall               = 15 * fieldkit.Inches
	largestOverall                = 60 * fieldkit.Inches
	narrowestInch, widestInch     = 3 * fieldkit.Inches, 25 * fieldkit.Inches
	smallestRim, largestRim       = 8 * fieldkit.Inches, 30 * fieldkit.Inches
)

// tyreSize takes the size up to the rim.
func (s *scan) tyreSize(t *Tyre) *Misread {
	start := s.at
	first := s.decimal()
	if first == "" {
		return s.expected(KindTyre, "a size")
	}
	var m *Misread
	switch {
	case s.times():
		m = s.flotation(t, first, start)
	case s.slash():
		m = s.metric(t, first, start)
	case s.dashed(t, first):
		return nil
	default:
		m = s.numeric(t, first, start)
	}
	if m != nil {
		return m
	}
	if m := s.build(t); m != nil {
		return m
	}
	at := s.at
	rim, ok := inches(s.decimal())
	if !ok || rim < smallestRim || rim > largestRim || rim%(fieldkit.Inches/2) != 0 {
		s.at = at
		return s.expected(KindTyre, "a rim in inches")
	}
	if t.Rim = rim; t.Form == FlotationTyre && t.Overall <= rim {
		s.at = start
		return s.misread(KindTyre, "a tyre of %s in does not go on a rim of %s in", inText(t.Overall), inText(rim))
	}
	return nil
}

// dashed takes a metric size as it is often typed, with dashes or blanks only:
// 265-70-17. Such a tyre is a radial.
func (s *scan) dashed(t *Tyre, width string) bool {
	start := s.at
	if s.metricWidth(t, width) && s.skip("- ") {
		aspect, _ := strconv.Atoi(s.digits())
		if aspect >= lowestAspect && aspect <= highestAspect && s.skip("- R") {
			rim, ok := inches(s.decimal())
			if ok && rim >= smallestRim && rim <= largestRim && rim%(fieldkit.Inches/2) == 0 {
				t.Aspect, t.Build, t.Rim = aspect, "R", rim
				return true
			}
		}
	}
	s.at, t.Section = start, 0
	return false
}

func (s *scan) slash() bool {
	start := s.at
	s.blank()
	if !s.take('/') {
		s.at = start
		return false
	}
	s.blank()
	return true
}

func (s *scan) flotation(t *Tyre, overall string, start int) *Misread {
	t.Form = FlotationTyre
	var ok bool
	if t.Overall, ok = inches(overall); !ok || t.Overall < smallestOverall || t.Overall > largestOverall || t.Overall%(fieldkit.Inches/20) != 0 {
		s.at = start
		return s.expected(KindTyre, "an overall diameter in inches")
	}
	at := s.at
	t.Section, ok = inches(s.decimal())
	if !ok || t.Section < narrowestInch || t.Section > widestInch || t.Section%(fieldkit.Inches/100) != 0 {
		s.at = at
		return s.expected(KindTyre, "a section width in inches")
	}
	return nil
}

func (s *scan) metric(t *Tyre, width string, start int) *Misread {
	t.Form = MetricTyre
	if !s.metricWidth(t, width) {
		s.at = start
		return s.misread(KindTyre, "%q is not a section width in millimetres, which ends in 5", width)
	}
	at := s.at
	aspect, err := strconv.Atoi(s.digits())
	if err != nil || aspect < lowestAspect || aspect > highestAspect {
		s.at = at
		return s.expected(KindTyre, "an aspect in per cent")
	}
	t.Aspect = aspect
	return nil
}

func (s *scan) metricWidth(t *Tyre, width string) bool {
	q, ok := millimetres(width)
	t.Section = q
	return ok && q >= narrowestMetric && q <= widestMetric && q%(5*fieldkit.Millimetre) == 0 && q%(10*fieldkit.Millimetre) != 0
}

// numeric takes a width in inches, with its decimals or, as on older sidewalls,
// without the point: 7.00, 700. A width of three digits ending in 5 below 400 is
// millimetres: 185R14.
func (s *scan) numeric(t *Tyre, width string, start int) *Misread {
	if s.metricWidth(t, width) {
		t.Form = MetricTyre
		return nil
	}
	t.Form = NumericTyre
	q, ok := inches(width)
	if n, err := strconv.Atoi(width); err == nil && len(width) >= 3 && n < 10_000 {
		q, ok = fieldkit.Length(n)*fieldkit.Inches/100, true
	}
	if t.Section = q; !ok || q < narrowestInch || q > widestInch || q%(fieldkit.Inches/100) != 0 {
		s.at = start
		return s.expected(KindTyre, "a section width")
	}
	return nil
}

// build takes the letter or dash before the rim.
func (s *scan) build(t *Tyre) *Misread {
	s.blank()
	if t.Build = s.piece([]string{"R", "ZR", "B", "D", "-"}); t.Build == "" {
		return s.expected(KindTyre, "R, D, B or - before the rim")
	}
	s.blank()
	return nil
}
