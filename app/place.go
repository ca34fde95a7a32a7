package app

import (
	"fmt"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
)

// placeWords prints a position in degrees with how sure it is and when it was
// taken.
func placeWords(p fieldkit.Place) string {
	return fmt.Sprintf("%s %s, within %s, %s",
		degrees(p.Lat, "N", "S"), degrees(p.Lon, "E", "W"), metres(p.Accuracy), p.FixedAt.Local().Format("2 Jan 2006 15:04"))
}

// degrees prints millionths of a degree with a letter in place of the sign.
func degrees(micro int64, positive, negative string) string {
	letter := positive
	if micro < 0 {
		micro, letter = -micro, negative
	}
	return fmt.Sprintf("%d.%05d° %s", micro/1_000_000, micro%1_000_000/10, letter)
}

func metres(d fieldkit.Distance) string {
	m := int64(d / fieldkit.Metre)
	return fmt.Sprintf("%d m (%d ft)", m, (m*3281+500)/1000)
}

// fixText keeps a device position in a form's draft.
func fixText(p fieldkit.Place) string {
	at, _ := p.FixedAt.MarshalText() // a moment always prints
	return fmt.Sprintf("%d %d %d %s", p.Lat, p.Lon, int64(p.Accuracy), at)
}

// placeOf reads it back; a draft that does not hold one gives no place.
func placeOf(f *form) fieldkit.Place {
	words := strings.Fields(f.get("fix at"))
	if len(words) != 4 {
		return fieldkit.Place{}
	}
	var n [3]int64
	for i := range n {
		v, err := strconv.ParseInt(words[i], 10, 64)
		if err != nil {
			return fieldkit.Place{}
		}
		n[i] = v
	}
	var at fieldkit.Moment
	if at.UnmarshalText([]byte(words[3])) != nil {
		return fieldkit.Place{}
	}
	return fieldkit.Place{Lat: n[0], Lon: n[1], Accuracy: fieldkit.Distance(n[2]), FixedAt: at}
}
