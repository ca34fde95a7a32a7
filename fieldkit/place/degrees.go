package place

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// At is a position on WGS 84 in millionths of a degree, north and east positive: a
// millionth is at most 11 cm.
type At struct{ Lat, Lon int64 }

// Of gives the position a device took; ok is false where it took none.
func Of(p fieldkit.Place) (at At, ok bool) { return At{p.Lat, p.Lon}, p.HasFix() }

// Valid reports whether there is such a place.
func (a At) Valid() bool {
	return -90_000_000 <= a.Lat && a.Lat <= 90_000_000 && -180_000_000 <= a.Lon && a.Lon <= 180_000_000
}

// Degrees prints decimal degrees to five places, about a metre, with letters in
// place of signs.
func (a At) Degrees() string {
	return one(a.Lat, "N", "S", decimal) + " " + one(a.Lon, "E", "W", decimal)
}

// Minutes prints degrees and decimal minutes to three places, under two metres: the
// notation of search and rescue and of most receivers.
func (a At) Minutes() string {
	return one(a.Lat, "N", "S", minutes) + " " + one(a.Lon, "E", "W", minutes)
}

func one(micro int64, positive, negative string, show func(micro int64) string) string {
	letter := positive
	if micro < 0 {
		micro, letter = -micro, negative
	}
	return show(micro) + " " + letter
}

func decimal(micro int64) string {
	rounded := (micro + 5) / 10
	return fmt.Sprintf("%d.%05d°", rounded/100_000, rounded%100_000)
}

// minutes of millionths of a degree: a thousandth of a minute is 50/3 of them.
func minutes(micro int64) string {
	thousandths := (micro*3 + 25) / 50
	return fmt.Sprintf("%d° %02d.%03d′", thousandths/60_000, thousandths%60_000/1000, thousandths%1000)
}
