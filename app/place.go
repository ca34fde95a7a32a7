package app

import (
	"fmt"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/place"
)

// placeWords prints a position in degrees with how sure it is and when it was
// taken.
func placeWords(p fieldkit.Place) string {
	at, _ := place.Of(p)
	return fmt.Sprintf("%s, within %s, %s", at.Degrees(), place.Metres(p.Accuracy), p.FixedAt.Local().Format("2 Jan 2006 15:04"))
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
