package measure_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Parts whose sizes are printed elsewhere than in the tables of the program, measured
// as one would in a yard. Each line names where the sizes are from.
var published = []struct{ line, want, source string }{
	{"bearing bore=35 od=72 width=17", "6207", "ISO 15, dimension series 02; any bearing handbook"},
	{"bearing bore=24.98 od=61.95 width=16.9", "6305", "ISO 15, dimension series 03"},
	{"bearing bore=20.08 od=46.9 width=13.95 -worn", "6204", "ISO 15: 20 × 47 × 14, ring turned on its shaft"},
	{"bearing bore=8 od=22 width=7", "608", "ISO 15: 8 × 22 × 7, the skate bearing"},
	{"bearing -tool=rule bore=30 od=62 width=16 type=ball", "6206", "ISO 15: 30 × 62 × 16"},
	{"bearing bore=17mm od=1.575in width=12mm", "6203", "ISO 15: 17 × 40 × 12; 40 mm is 1.5748 in"},
	{"bearing id=40 od=80 width=18 type=roller flanges=NU", "NU208", "DIN 5412-1: as 6208, 40 × 80 × 18"},
	{"tapered bore=1.000in od=1.980in width=.560in", "L44643/L44610", "ABMA 19.2; the trailer bearing sold as 1 in, 1.980 in, 0.560 in"},
	{"tapered bore=35 od=72 width=18.25", "30207", "ISO 355: 35 × 72 × 18.25"},
	{"tapered bore=1-5/8 od=2.891in width=.77in", "LM501349/LM501310", "ABMA 19.2: 1.625 × 2.891 × 0.770 in"},
	{"tapered -worn bore=1.627in od=2.89in width=.765in", "LM501349/LM501310", "the same, worn"},
	{"tapered bore=1.781in cone_width=.78in", "LM603049", "ABMA 19.2: cone of 1.781 in bore, 0.7812 in wide, alone"},
	{"seal shaft=40 bore=62 width=7", "40x62x7", "ISO 6194-1 / DIN 3760 size"},
	{"seal lip=38.4 od=62.25 width=7.1", "40x62x7", "the same, measured on the seal: a press fit of 0.25 mm, the lip 1.6 mm small"},
	{"o-ring id=.984in cs=.139in", "AS568-214", "AS568: -214 is 0.984 × 0.139 in"},
	{"o-ring id=25 cs=3.5", "AS568-214", "AS568: 24.99 × 3.53 mm"},
	{"o-ring -worn id=.74in cs=.09in", "AS568-116", "AS568: -116 is 0.737 × 0.103 in (from memory); flattened"},
	{"thread nominal=.370in tpi=16", "3/8-16 UNC", "ASME B1.1: 3/8 class 2A is 0.3643 to 0.3737 in (from memory)"},
	{"thread nominal=9/16 tpi=18", "9/16-18 UNF", "ASME B1.1"},
	{"thread nominal=7.85 tpi=18", "5/16-18 UNC", "ASME B1.1; M8x1.25 is as thick, but has another pitch"},
	{"thread nominal=7.85 pitch=1.25", "M8x1.25", "ISO 261; ISO 965-1: 7.76 to 7.97 mm over the thread at 6g"},
	{"thread nominal=12.6 tpi=20", "1/2-20 UNF", "ASME B1.1; 20 to the inch is 1.27 mm, near M12x1.25"},
	{"thread nominal=11.9 pitch=1.25", "M12x1.25", "ISO 261"},
	{"thread hole=.257in tpi=18", "5/16-18 UNC", "tap drill chart: letter F, 0.257 in, for 5/16-18"},
	{"thread hole=8.5 pitch=1.5", "M10x1.5", "tap drill chart: 8.5 mm for M10"},
	{"bolt nominal=1/2 tpi=13 marks=6", "1/2-13 UNC grade 8", "SAE J429: six radial lines"},
	{"bolt nominal=9.9 pitch=1.5 marks=10.9", "M10x1.5 10.9", "ISO 898-1"},
	{"bolt nominal=3/8 tpi=24 marks=3_lines", "3/8-24 UNF grade 5", "SAE J429: three radial lines"},
	{"fitting thread_od=3/4 tpi=16 seat=37", "-8 JIC", "SAE J514: -8 is 3/4-16"},
	{"fitting thread_od=5/8 tpi=18 seat=45 tube=3/8", "3/8 SAE 45 flare", "SAE J512: 5/8-18 on 3/8 tube, male flare"},
	{"fitting thread_od=9.9 pitch=1 seat=bubble", "M10x1 bubble flare, 4.75 mm tube", "ISO 4038"},
	{"fitting thread_od=.53in tpi=18 seat=taper", "1/4 NPT", "ASME B1.20.1: 0.540 in, 18 to the inch, tapered"},
	{"hose bore=9.6 use=fuel", "3/8 fuel hose", "SAE J30"},
	{"hose bore=5/8 use=heater", "5/8 heater hose", "SAE J20"},
	{"u-joint cap=1.063in span=3.219in lock_up=outside", "1310", "trade series 1310: 1-1/16 and 3-7/32 in"},
	{"u-joint cap=1.188in span=3.625in", "1350", "trade series 1350: 1-3/16 and 3-5/8 in"},
	{"u-joint -worn cap=1.059in span=3.61in", "1330", "trade series 1330: 1-1/16 and 3-5/8 in"},
	{"spline splines=35 diameter=1.5in", "35 spline", "markwilliams.com: 35 splines, 1.500 in"},
	{"spline splines=30 diameter=1.31in", "30 spline", "common practice: 30 splines are called 1.31 in"},
	{"wheel studs=5 spacing=2.645in", "5x114.3", "chord of 4.5 in at five studs: 4.5 × sin 36°"},
	{"wheel studs=6 spacing=2.75in", "6x139.7", "six studs: half of the circle, 5.5 in"},
	{"wheel studs=8 spacing=63.2", "8x165.1", "eight studs: 6.5 in × sin 22.5° = 2.487 in"},
	{"wheel -tool=tape studs=8 spacing=65", "8x170", "eight studs: 170 mm × sin 22.5° = 65.06 mm"},
	{"wheel studs=5 circle=5in", "5x127", "common practice: 5 on 5 in"},
	{"tyre diameter=34.4in section_width=12.4in rim=17", "315/70R17", "engineerfix.com: 315/70R17 is 34.4 in"},
	{"tyre diameter=30.6in section_width=265mm rim=16 aspect=70", "265/70R16", "cdmfabrication.com: 30.606 in"},
	{"tyre -worn diameter=32.3 section_width=11.2 rim=16 aspect=75", "285/75R16", "285 mm × 75 per cent and 16 in are 32.8 in; half worn"},
	{"belt ribs=6 length=2425.7", "6PK2426", "bustedbelt.com: K060955 is 95.5 in, 2425.7 mm"},
	{"belt ribs=6 outside=1214", "6PK1200", "hawkbelt.com: 6PK1200 is 1214 mm around"},
	{"belt width=.84in length=1795", "6PK1795", "birthday-graphics.com: six ribs are 0.84 in wide"},
	{"battery length=260 width=173 height=200 terminals=top", "group 34", "BCI: 34 is 10-1/4 × 6-13/16 × 7-7/8 in"},
	{"battery length=12.9in width=6.75in height=9.4in", "group 31", "BCI: 31 is 13 × 6-13/16 × 9-7/16 in at most"},
	{"fuse width=19.1 colour=yellow", "20 A regular ATO/ATC", "ISO 8820-3: yellow is 20 A"},
	{"fuse width=10.9 height=16.3 rating=10", "10 A mini ATM/APM", "ISO 8820-3: mini body"},
	{"wire diameter=.1019in", "10 AWG", "ASTM B258: 10 AWG is 0.1019 in"},
	{"wire area=21.2", "4 AWG", "ASTM B258: 4 AWG is 21.15 mm²"},
}

func TestPublishedParts(t *testing.T) {
	for _, p := range published {
		t.Run(p.line, func(t *testing.T) {
			r := find(t, p.line)
			assert.Equal(t, p.want, first(r), p.source)
			assert.True(t, r.Fits)
			assert.True(t, r.Candidates[0].Fits)
		})
	}
}

// What can only be told apart by one more reading is so told: the classic mix-ups.
func TestMeasureNext(t *testing.T) {
	for line, want := range map[string]struct{ next, why string }{
		"thread nominal=7.9":                      {"pitch", ""},
		"u-joint cap=1.0625in":                    {"span", "1310 (81.76 mm (3.219 in)) from 1330"},
		"u-joint span=3.625in":                    {"cap", ""},
		"bearing bore=35 od=72 width=17":          {"type", "6207 (deep groove) from NU207 (cylindrical roller)"},
		"bearing bore=35":                         {"width", "leaves about"},
		"tapered bore=1-5/8 od=2.891in":           {"width", "LM501349/LM501310 (19.56 mm (0.77 in)) from LM501349/LM501314"},
		"fitting thread_od=9/16 tpi=18":           {"seat", "37 degree flare"},
		"bolt nominal=1/2 tpi=13":                 {"marks", ""},
		"belt width=21.4":                         {"ribs", ""},
		"belt ribs=6 width=21.4":                  {"length", "without the length"},
		"spline diameter=1.31in":                  {"splines", ""},
		"fuse colour=green":                       {"height", ""},
		"wheel spacing=67.2":                      {"studs", ""},
		"seal shaft=45 bore=62 width=8":           {"", "nothing else fits"},
		"fitting thread_od=9/16 tpi=18 seat=37":   {"", "-6 JIC and -6 AN measure the same"},
		"battery length=260 width=173 height=200": {"", "group 34 and group 34R measure the same"},
	} {
		t.Run(line, func(t *testing.T) {
			r := find(t, line)
			assert.Equal(t, want.next, r.Next.Measurement)
			assert.Contains(t, r.Next.Why, want.why)
		})
	}
}

// Nothing standard is said to be so, with the nearest.
func TestNothingStandardFits(t *testing.T) {
	for line, nearest := range map[string]string{
		"bearing bore=35.6 od=72 width=17 type=ball": "6207",
		"thread nominal=14 pitch=1.7":                "M14x1.5",
		"o-ring id=25 cs=5":                          "AS568-318",
		"wheel studs=5 spacing=85":                   "5x139.7",
		"u-joint cap=1in span=3in":                   "1310",
		"battery length=400 width=173":               "group LN5/H8",
		"spline splines=30 diameter=1.5in":           "30 spline",
	} {
		r := find(t, line)
		assert.False(t, r.Fits, line)
		assert.Empty(t, fitting(r), line)
		assert.Equal(t, nearest, first(r), line)
		assert.NotEmpty(t, r.Next.Measurement, line)
		assert.Contains(t, r.Next.Why, "nothing standard fits; the nearest", line)
	}
}
