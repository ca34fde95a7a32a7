// Package place says where one stands in the notations that people ask for on the
// telephone and over the radio: degrees, degrees with minutes, and the grids printed
// on maps (UTM and MGRS, both on WGS 84).
//
//	at := place.At{Lat: 41_852_700, Lon: -118_221_300}
//	at.Degrees()     // 41.85270° N 118.22130° W
//	at.Minutes()     // 41° 51.162′ N 118° 13.278′ W
//	utm, ok := at.UTM()
//	utm.String()     // 11T 398620 4634230: zone, band, metres east and north
//	utm.MGRS()       // 11T LG 98620 34230
//
// It does not read addresses, and knows no other datum.
package place
