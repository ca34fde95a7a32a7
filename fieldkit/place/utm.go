package place

import (
	"fmt"
	"math"
)

// UTM is a position on the Universal Transverse Mercator grid.
type UTM struct {
	Zone     int     // 1 to 60
	Band     byte    // C to X without I and O; from N on the northern half
	Easting  float64 // metres, 500 000 on the zone's middle meridian
	Northing float64 // metres from the equator; on the southern half from 10 000 km south of it
}

// Limits of the grid in degrees; beyond them another one is printed on maps.
const (
	southmost = -80
	northmost = 84
)

// UTM gives the grid position; ok is false nearer to the poles than 80° S and 84° N.
//
// The projection is Krüger's series in the third flattening to the fourth order, under
// a millimetre within a zone (C. Karney, Transverse Mercator with an accuracy of a few
// nanometers, 2011). Zones and bands: DMA TM 8358.1, with the wider zones of Norway
// and Svalbard.
func (a At) UTM() (u UTM, ok bool) {
	lat, lon := float64(a.Lat)/1e6, float64(a.Lon)/1e6
	if !a.Valid() || lat < southmost || lat > northmost {
		return UTM{}, false
	}
	u.Zone, u.Band = zoneOf(lat, lon), bandOf(lat)
	east, north := transverse(lat, lon-middleOf(u.Zone))
	u.Easting, u.Northing = falseEasting+scale*east, scale*north
	if a.Lat < 0 {
		u.Northing += falseNorthing
	}
	return u, true
}

const (
	scale         = 0.9996 // on the middle meridian
	falseEasting  = 500_000
	falseNorthing = 10_000_000

	// WGS 84: half axis in metres and flattening (NIMA TR8350.2).
	halfAxis   = 6_378_137
	flattening = 1 / 298.257223563
)

// middleOf is the longitude in the middle of a zone.
func middleOf(zone int) float64 { return float64(zone*6 - 183) }

func zoneOf(lat, lon float64) int {
	zone := int(math.Floor((lon+180)/6))%60 + 1
	switch {
	case lat >= 56 && lat < 64 && lon >= 3 && lon < 12:
		return 32 // south-western Norway
	case lat >= 72 && lon >= 0 && lon < 42: // Svalbard has zones 31, 33, 35, 37
		switch {
		case lon < 9:
			return 31
		case lon < 21:
			return 33
		case lon < 33:
			return 35
		}
		return 37
	}
	return zone
}

// bands are 8° high from 80° S; the last one is 12°.
const bands = "CDEFGHJKLMNPQRSTUVWX"

func bandOf(lat float64) byte {
	return bands[min(int(math.Floor((lat-southmost)/8)), len(bands)-1)]
}

// Krüger's coefficients for WGS 84, computed once from the third flattening.
var (
	n, meridian = third()
	alpha       = [4]float64{
		n/2 - 2*n*n/3 + 5*n*n*n/16 + 41*n*n*n*n/180,
		13*n*n/48 - 3*n*n*n/5 + 557*n*n*n*n/1440,
		61*n*n*n/240 - 103*n*n*n*n/140,
		49561 * n * n * n * n / 161280,
	}
)

// third gives the third flattening and the radius of the circle as long as the
// meridian.
func third() (n, radius float64) {
	n = flattening / (2 - flattening)
	return n, halfAxis / (1 + n) * (1 + n*n/4 + n*n*n*n/64)
}

// transverse projects degrees, the longitude from the middle meridian, onto metres
// east of it and north of the equator, at scale 1.
func transverse(lat, lon float64) (east, north float64) {
	phi, lambda := lat*math.Pi/180, lon*math.Pi/180
	e := math.Sqrt(flattening * (2 - flattening))
	sin := math.Sin(phi)
	conformal := math.Sinh(math.Atanh(sin) - e*math.Atanh(e*sin)) // tangent of the conformal latitude
	xi := math.Atan2(conformal, math.Cos(lambda))
	eta := math.Asinh(math.Sin(lambda) / math.Hypot(conformal, math.Cos(lambda)))
	east, north = eta, xi
	for i, a := range alpha {
		j := 2 * float64(i+1)
		east += a * math.Cos(j*xi) * math.Sinh(j*eta)
		north += a * math.Sin(j*xi) * math.Cosh(j*eta)
	}
	return meridian * east, meridian * north
}

// String prints zone, band, and whole metres east and north, rounded.
func (u UTM) String() string {
	return fmt.Sprintf("%02d%c %06.0f %07.0f", u.Zone, u.Band, u.Easting, u.Northing)
}

// Letters of the 100 km squares: columns in three sets by zone, rows in two.
const (
	columns = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	rows    = "ABCDEFGHJKLMNPQRSTUV"
)

// MGRS prints the grid reference with metres. The metres are cut off, not rounded:
// the reference names the square one stands in.
func (u UTM) MGRS() string {
	east, north := cut(u.Easting), cut(u.Northing)
	column := columns[(u.Zone-1)%3*8+int(east/100_000)-1]
	row := int(north/100_000) % len(rows)
	if u.Zone%2 == 0 {
		row = (row + 5) % len(rows)
	}
	return fmt.Sprintf("%02d%c %c%c %05d %05d", u.Zone, u.Band, column, rows[row], east%100_000, north%100_000)
}

// cut drops what is under a metre; a micrometre is the projection's own uncertainty,
// not a distance.
func cut(metres float64) int64 { return int64(math.Floor(metres + 1e-6)) }
