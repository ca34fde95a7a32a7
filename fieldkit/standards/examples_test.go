package standards_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
)

// example is a designation as people write it, what it is normally called, and what a
// published source says of it.
type example struct {
	typed, name string
	kind        standards.Kind
	dims        string // "bore 35 mm; od 72 mm": a part of what Dims gives
}

// Sources: each group names its own. Where a table of the program has the row too,
// the figures here come from somewhere else or are common knowledge of the trade.
var examples = []example{
	// ISO 15 boundary dimensions of the 02 and 03 series; bore code rule 04 × 5 = 20 mm
	// (any bearing handbook; from memory).
	{"6207-2RS C3", "6207-2RS C3", standards.KindBall, "bore 35 mm; od 72 mm; width 17 mm; type deep groove"},
	{"62072RSC3", "6207-2RS C3", standards.KindBall, "bore 35 mm"},
	{"6207 c3 2rs", "6207-2RS C3", standards.KindBall, ""},
	{"6204ZZ", "6204-ZZ", standards.KindBall, "bore 20 mm; od 47 mm; width 14 mm"},
	{"6305 NR", "6305 NR", standards.KindBall, "bore 25 mm; od 62 mm; width 17 mm"},
	{"6000", "6000", standards.KindBall, "bore 10 mm; od 26 mm; width 8 mm"},
	{"6201", "6201", standards.KindBall, "bore 12 mm; od 32 mm; width 10 mm"},
	{"6203", "6203", standards.KindBall, "bore 17 mm; od 40 mm; width 12 mm"},
	{"608-2Z", "608-2Z", standards.KindBall, "bore 8 mm; od 22 mm; width 7 mm"},
	{"62/22", "62/22", standards.KindBall, "bore 22 mm; od 50 mm; width 14 mm"},
	{"61804-2RS", "6804-2RS", standards.KindBall, "bore 20 mm; od 32 mm; width 7 mm"},
	{"6418", "6418", standards.KindBall, "bore 90 mm"}, // beyond the table: the bore code alone
	{"NU 207 E", "NU207 E", standards.KindRoller, "bore 35 mm; od 72 mm; width 17 mm"},
	{"k30x35x17", "K30X35X17", standards.KindNeedle, "bore 30 mm; od 35 mm; width 17 mm"},

	// ISO 355 and ABMA 19.2 dimensions as printed in general bearing lists; 30207 is
	// 3DB there (zanotowane.pl).
	{"30207", "30207", standards.KindTaperMetric, "bore 35 mm; od 72 mm; width 18.25 mm; cone_width 17 mm; cup_width 15 mm"},
	{"T3DB035", "30207", standards.KindTaperMetric, "bore 35 mm"},
	{"32007X", "32007", standards.KindTaperMetric, "bore 35 mm; od 62 mm; width 18 mm"},
	{"T4CB050", "T4CB050", standards.KindTaperMetric, "bore 50 mm"},
	{"LM501349/LM501310", "LM501349/LM501310", standards.KindTaperInch, "bore 41.275 mm; od 73.431 mm; width 19.558 mm"},
	{"lm501349/10", "LM501349/LM501310", standards.KindTaperInch, "bore 1-5/8 in"},
	{"LM501310 LM501349", "LM501349/LM501310", standards.KindTaperInch, ""},
	{"LM501349", "LM501349", standards.KindTaperInch, "bore 41.275 mm"},
	{"LM501310", "LM501310", standards.KindTaperInch, "od 73.431 mm"},
	{"KLM11749", "LM11749", standards.KindTaperInch, "bore 17.462 mm"},
	{"L44643/L44610", "L44643/L44610", standards.KindTaperInch, "bore 25.4 mm; od 50.292 mm; width 14.224 mm"}, // 1.000 × 1.980 × 0.560 in, the common trailer bearing

	// AS568 dash numbers: -214 is 0.984 × 0.139 in (globaloring.com gives the 200
	// series a cross-section of .139 in); -904 goes with a -4 tube fitting.
	{"-214", "AS568-214", standards.KindORing, "id 0.984 in; cs 0.139 in; od 1.262 in"},
	{"AS568-214", "AS568-214", standards.KindORing, ""},
	{"214", "AS568-214", standards.KindORing, ""},
	{"AS568A-010", "AS568-010", standards.KindORing, "id 0.239 in; cs 0.07 in"},
	{"-904", "AS568-904", standards.KindORing, "id 0.351 in; cs 0.072 in"},

	{"45×68×10", "45x68x10", standards.KindSeal, "shaft 45 mm; bore 68 mm; width 10 mm"}, // ISO 6194-1: shaft, bore, width
	{"45-68-10 tc nbr", "45x68x10 TC NBR", standards.KindSeal, "shaft 45 mm"},
	{"TC 30x47x7", "30x47x7 TC", standards.KindSeal, ""},

	// ASME B1.1 and ISO 261: nominal sizes and pitches (any thread chart).
	{"9/16-18 UNF", "9/16-18 UNF", standards.KindInchThread, "nominal 9/16 in; tpi 18"},
	{"9/16-18", "9/16-18 UNF", standards.KindInchThread, ""},
	{"1/4-20 UNC-2A", "1/4-20 UNC-2A", standards.KindInchThread, "nominal 0.25 in; tpi 20; pitch 1.27 mm"},
	{"#10-24", "#10-24 UNC", standards.KindInchThread, "nominal 0.19 in; tpi 24"},
	{"10-32", "#10-32 UNF", standards.KindInchThread, "nominal 0.19 in; tpi 32"},
	{"#0-80", "#0-80 UNF", standards.KindInchThread, "nominal 0.06 in"},
	{".250-28", "1/4-28 UNF", standards.KindInchThread, ""},
	{"1 1/8-12 LH", "1-1/8-12 UNF LH", standards.KindInchThread, "nominal 1.125 in"},
	{"1-1/16-12", "1-1/16-12 UN", standards.KindInchThread, "nominal 1-1/16 in"}, // the thread of a -12 JIC, SAE J514
	{"M14×1.5", "M14x1.5", standards.KindMetricThread, "nominal 14 mm; pitch 1.5 mm"},
	{"M8", "M8x1.25", standards.KindMetricThread, "pitch 1.25 mm"},
	{"m10 x 1.25-6g", "M10x1.25-6g", standards.KindMetricThread, ""},
	{"M20-1.5 LH", "M20x1.5 LH", standards.KindMetricThread, ""},
	{"14x1.5", "M14x1.5", standards.KindMetricThread, ""},
	{"M42x3", "M42x3", standards.KindMetricThread, "pitch 3 mm"},
	{"1/2 NPT", "1/2 NPT", standards.KindPipeThread, "nominal 0.84 in; tpi 14"}, // ASME B1.20.1
	{"1-11.5 NPT", "1 NPT", standards.KindPipeThread, "nominal 1.315 in; tpi 11.5"},
	{"G 1/4", "G 1/4", standards.KindPipeThread, "nominal 13.157 mm; tpi 19"}, // ISO 228-1
	{"1/4 BSPT", "R 1/4", standards.KindPipeThread, "nominal 13.157 mm"},
	{"1/2-13 UNC grade 8", "1/2-13 UNC grade 8", standards.KindBolt, "marks 6 radial lines"}, // SAE J429
	{"3/8-16 gr 5", "3/8-16 UNC grade 5", standards.KindBolt, "marks 3 radial lines"},
	{"M10x1.5 class 10.9", "M10x1.5 10.9", standards.KindBolt, "marks 10.9"}, // ISO 898-1

	// SAE J514 and J512: -6 is 9/16-18 as JIC and 5/8-18 as 45 degree flare; 3/16
	// inverted flare takes 3/8-24.
	{"-6 JIC", "-6 JIC", standards.KindFitting, "thread 9/16-18 UNF; thread_od 9/16 in; tpi 18; tube 3/8 in"},
	{"JIC 6", "-6 JIC", standards.KindFitting, ""},
	{"3/8 JIC", "-6 JIC", standards.KindFitting, ""},
	{"AN-6", "-6 AN", standards.KindFitting, "tube 3/8 in"},
	{"3/8 SAE flare", "3/8 SAE 45 flare", standards.KindFitting, "thread 5/8-18"},
	{"3/16 inverted flare", "3/16 inverted flare", standards.KindFitting, "thread 3/8-24"},
	{"3/16\" double flare", "3/16 inverted flare", standards.KindFitting, ""},
	{"M10x1 bubble flare", "M10x1 bubble flare, 4.75 mm tube", standards.KindFitting, "tube 4.75 mm"},
	{"5/16 fuel hose", "5/16 fuel hose", standards.KindHose, "bore 5/16 in"},
	{"hydraulic -8", "-8 hydraulic hose", standards.KindHose, "bore 1/2 in"}, // SAE J517: sixteenths of an inch
	{"-8 100R5", "-8 100R5 hose", standards.KindHose, "bore 13/32 in"},

	// Load index 121 is 1450 kg, 118 is 1320 kg; Q is 160 km/h (ETRTO, from memory).
	{"35×12.50R17LT 121Q", "35x12.50R17LT 121Q", standards.KindTyre, "diameter 35 in; section_width 12.5 in; rim 17 in; load 1450 kg; speed 160 km/h (99 mph)"},
	{"35x12.5r17lt121q", "35x12.50R17LT 121Q", standards.KindTyre, ""},
	{"LT315/70R17 121/118Q", "LT315/70R17 121/118Q", standards.KindTyre, "load 1450 kg; load_dual 1320 kg"},
	{"LT285/75R16 126/123R LRE", "LT285/75R16 126/123R LR E", standards.KindTyre, "section_width 285 mm; speed 170 km/h (106 mph)"},
	{"7.00-16", "7.00-16", standards.KindTyre, "section_width 7 in; rim 16 in"},
	{"750R16LT 10PR", "7.50R16LT 10PR", standards.KindTyre, "section_width 7.5 in"},
	{"185R14C 102/100Q", "185R14C 102/100Q", standards.KindTyre, "section_width 185 mm"},
	{"265 70 17", "265/70R17", standards.KindTyre, ""},
	{"P265/70R16", "P265/70R16", standards.KindTyre, ""},

	{"5x114.3", "5x114.3", standards.KindWheel, "studs 5; circle 114.3 mm"}, // 4-1/2 in, common practice
	{"5 on 4.5", "5x114.3", standards.KindWheel, "circle 4-1/2 in"},
	{"8x6-1/2", "8x165.1", standards.KindWheel, "circle 6-1/2 in"},
	{"6 lug x 5.5\"", "6x139.7", standards.KindWheel, ""},
	{"8x170", "8x170", standards.KindWheel, "circle 170 mm"},

	{"6PK1795", "6PK1795", standards.KindBelt, "length 1795 mm; ribs 6"}, // ISO 9981
	{"k060955", "K060955", standards.KindBelt, "length 95.5 in"},         // bustedbelt.com
	{"6K955", "K060955", standards.KindBelt, "length 2425.7 mm; ribs 6"},

	{"1310", "1310", standards.KindUJoint, "cap 1.062 in; span 3.219 in"}, // duhui-bearing.com, zjwgujoint.com
	{"1350 u-joint", "1350", standards.KindUJoint, ""},
	{"35 spline", "35 spline", standards.KindSpline, "splines 35; diameter 1.5 in"},    // markwilliams.com/aerp2.html
	{"40-splines", "40 spline", standards.KindSpline, "splines 40; diameter 1.708 in"}, // same

	{"group 31", "group 31", standards.KindBattery, "length 330 mm; width 173 mm; height 240 mm"}, // BCI
	{"34r", "group 34R", standards.KindBattery, "width 173 mm"},
	{"H6", "group LN3/H6", standards.KindBattery, "length 278 mm; width 175 mm; height 190 mm"}, // EN 50342-2
	{"30A maxi", "30 A maxi APX", standards.KindFuse, "rating 30 A; colour green"},              // ISO 8820-3 colours
	{"ATO 20 A", "20 A regular ATO/ATC", standards.KindFuse, "colour yellow"},
	{"10 AWG", "10 AWG", standards.KindWire, "diameter 2.588 mm"},    // ASTM B258: 0.1019 in
	{"awg 4/0", "4/0 AWG", standards.KindWire, "diameter 11.684 mm"}, // 0.46 in by definition

	// SAE J866 letters; B14 is copper of up to 5 per cent, made in 2014
	// (brakeandfrontend.com, tnlab.org).
	{"FF", "FF", standards.KindFriction, "friction_cold over 0.35 to 0.45; friction_hot over 0.35 to 0.45"},
	{"ab 1234 ge b14", "AB 1234 GE B14", standards.KindFriction, "friction_cold over 0.45 to 0.55; friction_hot over 0.25 to 0.35"},
	{"80W90", "80W-90", standards.KindGearOil, "cold_limit -26 °C"}, // SAE J306
	{"sae 140", "SAE 140", standards.KindGearOil, ""},
	{"nlgi #2", "NLGI 2", standards.KindGrease, "penetration 265 to 295 tenths of a millimetre, worked, at 25 °C"}, // ASTM D217
	{"EP2", "NLGI 2 EP", standards.KindGrease, ""},
	{"dot5.1", "DOT 5.1", standards.KindBrakeFluid, ""},
	{"DOT-4", "DOT 4", standards.KindBrakeFluid, "dry_boiling 230 °C; wet_boiling 155 °C"}, // 49 CFR 571.116
}

func TestExamples(t *testing.T) {
	h := handbook(t)
	for _, e := range examples {
		t.Run(e.typed, func(t *testing.T) {
			readings, err := h.Parse(e.typed)
			require.NoError(t, err)
			d := readings[0].Designation
			assert.Equal(t, e.kind, d.Kind())
			assert.Equal(t, e.name, d.String())
			checkDesignation(t, h, d)
			for _, want := range strings.Split(e.dims, "; ") {
				name, figure, _ := strings.Cut(want, " ")
				if name == "" {
					continue
				}
				got, ok := standards.DimNamed(d, name)
				require.True(t, ok, "no %s", name)
				if got.Dim == fieldkit.DimText {
					assert.Equal(t, figure, got.Text, name)
					continue
				}
				wanted, err := fieldkit.ParseValueAs(figure, got.Dim, fieldkit.Metric)
				require.NoError(t, err)
				// Tables hold inch sizes to the thousandth and metric sizes to the
				// thousandth of a millimetre.
				assert.InDelta(t, float64(wanted.Base), float64(got.Base), 1500, "%s is %s, not %s", name, got, wanted)
			}
		})
	}
}

// What is typed in small letters, with other signs or more blanks is the same.
func TestWritingDoesNotMatter(t *testing.T) {
	h := handbook(t)
	for _, e := range examples {
		for _, same := range []string{strings.ToLower(e.name), strings.ReplaceAll(e.name, "x", "×"), strings.ReplaceAll(e.name, "-", "–"), "  " + e.name + " "} {
			d, err := h.ParseAs(e.kind, same)
			if assert.NoError(t, err, same) {
				class := strings.Contains(e.name, "-6g") // its case says bolt or nut
				assert.True(t, d.String() == e.name || class, "%q is read as %s", same, d)
			}
		}
	}
}

// A bare number is given with every meaning it may have.
func TestBareNumbersHaveAllReadings(t *testing.T) {
	h := handbook(t)
	kinds := func(text string) (kinds []standards.Kind) {
		readings, err := h.Parse(text)
		require.NoError(t, err)
		for _, r := range readings {
			assert.True(t, r.Bare, text)
			kinds = append(kinds, r.Designation.Kind())
		}
		return kinds
	}
	assert.Equal(t, []standards.Kind{standards.KindBattery, standards.KindGearOil}, kinds("65"))
	assert.Equal(t, []standards.Kind{standards.KindORing}, kinds("214"))
	assert.Contains(t, kinds("336"), standards.KindTaperInch)
}
