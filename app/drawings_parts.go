package app

import (
	"fmt"
	"math"
)

// sketch is the drawing of one kind of part, and the attributes it shows.
type sketch struct {
	sizes []string
	draw  func(s *sheet)
}

var drawings = map[string]sketch{
	"bearing": {[]string{"bore", "od", "width"}, func(s *sheet) {
		s.ringSection("M130 30h60v22h-60z", "M130 68h60v22h-60z")
		s.ringSection("M130 168h60v22h-60z", "M130 130h60v22h-60z")
		s.circle(160, 60, 11)
		s.circle(160, 160, 11)
		s.thin("M60 110H260M130 90V130M190 90V130M190 30H270M190 190H270M50 90H130M50 130H130")
		s.along("od", 260, 30, 190)
		s.along("bore", 70, 90, 130)
		s.thin("M130 30V8M190 30V8")
		s.across("width", 130, 190, 12)
	}},
	"tapered": {[]string{"bore", "od", "width", "cone_width", "cup_width"}, func(s *sheet) {
		s.ringSection("M135 30h62v8l-62 16z", "M118 88h70v-22l-70 12z")
		s.ringSection("M135 178h62v-8l-62-16z", "M118 120h70v22l-70-12z")
		s.path("M128 58l60-15 3 21-58 10zM128 150l60 15 3-21-58-10z")
		s.thin("M60 104H270M118 130V216M197 178V216M188 142V196M135 30V10M197 30V10M40 88H118M40 120H118M197 30H282M197 178H282")
		s.along("od", 272, 30, 178)
		s.along("bore", 52, 88, 120)
		s.across("cup_width", 135, 197, 14)
		s.across("cone_width", 118, 188, 190)
		s.arrows(118, 210, 197, 210)
		s.letter("width", 98, 204)
	}},
	"seal": {[]string{"shaft", "bore", "width", "lip"}, func(s *sheet) {
		s.filled("M140 30h50v12h-36v20l20 14-8 8-26-16z")
		s.filled("M140 190h50v-12h-36v-20l20-14-8-8-26 16z")
		s.path("M30 92H290M30 128H290")
		s.thin("M190 30H280M190 190H280M20 110H300M168 84H236M168 136H236M140 30V8M190 30V8")
		s.along("bore", 272, 30, 190)
		s.along("shaft", 60, 92, 128)
		s.along("lip", 226, 84, 136)
		s.across("width", 140, 190, 12)
	}},
	"o-ring": {[]string{"id", "cs", "od"}, func(s *sheet) {
		s.circle(120, 112, 86)
		s.circle(120, 112, 62)
		s.across("id", 58, 182, 112)
		s.thin("M34 112V16M206 112V16")
		s.across("od", 34, 206, 14)
		s.filled("M228 100a22 22 0 1 0 44 0a22 22 0 1 0-44 0z")
		s.thin("M228 100V160M272 100V160")
		s.across("cs", 228, 272, 150)
	}},
	"thread": {[]string{"nominal", "minor", "pitch", "tpi"}, func(s *sheet) {
		s.boltShank()
		s.thin("M170 70H20M170 130H20")
		s.along("nominal", 30, 70, 130)
		s.pitchMarks("pitch", "tpi")
		s.path("M232 60l30-16 30 16v80l-30 16-30-16z")
		s.circle(262, 100, 22)
		s.thin("M240 100V186M284 100V186")
		s.across("minor", 240, 284, 182)
	}},
	"bolt": {[]string{"nominal", "pitch", "tpi", "marks"}, func(s *sheet) {
		s.boltShank()
		s.thin("M170 70H20M170 130H20")
		s.along("nominal", 30, 70, 130)
		s.pitchMarks("pitch", "tpi")
		s.path("M262 44l40 23v46l-40 23-40-23V67z")
		s.path("M262 76V58M276 98l16 9M248 98l-16 9")
		s.point("marks", 262, 180, 262, 70)
	}},
	"fitting": {[]string{"thread_od", "pitch", "tpi", "tube", "seat"}, func(s *sheet) {
		s.path("M40 84h50v52h-50M90 66h46v88H90zM136 72h84l30 22v32l-30 22h-84")
		for x := 148.0; x < 218; x += 12 {
			s.path(fmt.Sprintf("M%g 72l6 76", x))
		}
		s.thin("M220 72H300M220 148H300M20 84H40M20 136H40M148 72V30M160 72V30")
		s.along("thread_od", 290, 72, 148)
		s.along("tube", 22, 84, 136)
		s.across("pitch", 148, 160, 34)
		s.point("tpi", 196, 190, 196, 140)
		s.point("seat", 262, 190, 240, 138)
	}},
	"hose": {[]string{"bore"}, func(s *sheet) {
		s.circle(90, 110, 66)
		s.circle(90, 110, 42)
		s.path("M90 44H250a66 66 0 0 1 0 132H90")
		s.across("bore", 48, 132, 110)
	}},
	"u-joint": {[]string{"cap", "span", "lock_up"}, func(s *sheet) {
		s.path("M62 84h42v52H62zM216 84h42v52h-42zM134 20h52v34h-52zM134 166h52v34h-52z")
		s.path("M104 94h26l14-14V54h32v26l14 14h26v32h-26l-14 14v26h-32v-26l-14-14h-26z")
		s.circle(160, 110, 12)
		s.path("M56 80v60M264 80v60")
		s.thin("M62 136V214M258 136V214M30 84H62M30 136H62")
		s.across("span", 62, 258, 206)
		s.along("cap", 34, 84, 136)
		s.point("lock_up", 288, 40, 264, 84)
	}},
	"spline": {[]string{"splines", "diameter"}, func(s *sheet) {
		s.gear(130, 110, 72, 60, 20)
		s.thin("M58 110V8M202 110V8")
		s.across("diameter", 58, 202, 14)
		s.point("splines", 270, 110, 198, 100)
	}},
	"wheel": {[]string{"studs", "spacing", "across", "circle"}, func(s *sheet) {
		s.circle(120, 110, 96)
		s.circle(120, 110, 26)
		fmt.Fprint(s, `<circle cx="120" cy="110" r="62" stroke-width="1.5" stroke-dasharray="7 5"/>`)
		var at [6][2]float64
		for i := range at {
			a := float64(i)*math.Pi/3 - math.Pi/2
			at[i] = [2]float64{120 + 62*math.Cos(a), 110 + 62*math.Sin(a)}
			s.circle(at[i][0], at[i][1], 10)
		}
		s.path(fmt.Sprintf("M%g %gL%g %g", at[0][0], at[0][1], at[1][0], at[1][1]))
		s.letter("spacing", (at[0][0]+at[1][0])/2+8, (at[0][1]+at[1][1])/2-10)
		s.path(fmt.Sprintf("M%g %gL%g %g", at[2][0], at[2][1], at[5][0], at[5][1]))
		s.letter("across", 92, 94)
		s.point("circle", 270, 60, 178, 88)
		s.point("studs", 270, 170, 126, 174)
	}},
	"tyre": {[]string{"diameter", "section_width", "rim"}, func(s *sheet) {
		s.filled("M120 24h80q14 24 4 44h-12l-4-12h-56l-4 12h-12q-10-20 4-44z")
		s.filled("M120 196h80q14-24 4-44h-12l-4 12h-56l-4-12h-12q-10 20 4 44z")
		s.path("M132 68v84M188 68v84")
		s.thin("M30 110H290M200 24H290M200 196H290M40 68H116M40 152H116M112 60V214M208 60V214")
		s.along("diameter", 276, 24, 196)
		s.along("rim", 56, 68, 152)
		s.across("section_width", 112, 208, 208)
	}},
	"belt": {[]string{"ribs", "length", "outside", "width", "rib_pitch"}, func(s *sheet) {
		s.path("M60 24h200a36 36 0 0 1 0 72H60a36 36 0 0 1 0-72z")
		s.path("M60 36h200a24 24 0 0 1 0 48H60a24 24 0 0 1 0-48z")
		s.point("length", 110, 60, 110, 84)
		s.point("outside", 210, 60, 210, 96)
		s.filled("M90 130h140v14l-8 20h-12l-8-20-8 20h-12l-8-20-8 20h-12l-8-20-8 20h-12l-8-20-8 20h-12l-8-20z")
		s.thin("M90 130V206M230 130V206M104 164V190M132 164V190")
		s.across("width", 90, 230, 206)
		s.across("rib_pitch", 104, 132, 182)
		s.point("ribs", 276, 140, 216, 158)
	}},
	"battery": {[]string{"length", "width", "height", "terminals"}, func(s *sheet) {
		s.path("M50 80h160v100H50zM50 80l44-34h160l-44 34M254 46v100l-44 34")
		s.path("M92 66v-16h18v14M196 64v-14h18v12")
		s.thin("M50 180V214M210 180V214M210 180h4M254 146l20 0M50 80H16M50 180H16")
		s.across("length", 50, 210, 204)
		s.path("M222 194l44-34")
		s.letter("width", 250, 186)
		s.along("height", 26, 80, 180)
		s.point("terminals", 286, 24, 208, 50)
	}},
	"fuse": {[]string{"width", "height", "depth"}, func(s *sheet) {
		s.path("M60 40h130v66H60zM74 106v74h26v-74M150 106v74h26v-74M96 72q10-22 28 0t30 0")
		s.thin("M60 40V8M190 40V8M60 40H20M74 180H20M252 40V8M286 40V8")
		s.across("width", 60, 190, 14)
		s.along("height", 30, 40, 180)
		s.path("M252 40h34v66h-34zM264 106v74h10v-74")
		s.across("depth", 252, 286, 14)
	}},
	"wire": {[]string{"diameter", "area"}, func(s *sheet) {
		s.circle(84, 110, 62)
		s.circle(84, 110, 36)
		s.thin("M48 110V14M120 110V14")
		s.across("diameter", 48, 120, 20)
		s.circle(230, 110, 62)
		for i := range 7 {
			x, y := 230.0, 110.0
			if i > 0 {
				a := float64(i) * math.Pi / 3
				x, y = x+24*math.Cos(a), y+24*math.Sin(a)
			}
			s.circle(x, y, 12)
		}
		s.point("area", 290, 24, 240, 84)
	}},
}

// ringSection draws two rings that were cut.
func (s *sheet) ringSection(outer, inner string) {
	s.filled(outer)
	s.filled(inner)
}

// boltShank draws a bolt from the side.
func (s *sheet) boltShank() {
	s.path("M60 58h26v84H60zM86 70h114l6 8v44l-6 8H86")
	for x := 116.0; x < 200; x += 14 {
		s.path(fmt.Sprintf("M%g 70l7 60", x))
	}
}

// pitchMarks dimensions the thread of boltShank: from crest to crest, and counted.
func (s *sheet) pitchMarks(pitch, perInch string) {
	s.thin("M130 70V30M144 70V30")
	s.across(pitch, 130, 144, 36)
	s.point(perInch, 150, 180, 158, 124)
}

// gear draws a round shaft with teeth.
func (s *sheet) gear(x, y, outside, inside float64, teeth int) {
	d := ""
	for i := range teeth {
		for j, r := range []float64{inside, outside, outside, inside} {
			a := (float64(i) + []float64{0, 0.2, 0.5, 0.7}[j]) * 2 * math.Pi / float64(teeth)
			command := "L"
			if d == "" {
				command = "M"
			}
			d += fmt.Sprintf("%s%.1f %.1f", command, x+r*math.Cos(a), y+r*math.Sin(a))
		}
	}
	s.path(d + "Z")
}
