// Package export writes the log for other programs: tables for a spreadsheet,
// waypoints for a map.
//
//	failures := export.LogCSV(kit, fieldkit.Inch)        // oldest first
//	readings := export.ReadingsCSV(kit, fieldkit.Inch)
//	places := export.LogGPX(kit, "Trail Field Kit")      // failures whose place was fixed
//	due := export.DueCalendar(kit, list, now, fieldkit.Inch)
//
// Tables follow RFC 4180 (comma, CRLF, quotes doubled) and begin with a byte order
// mark, without which spreadsheets take UTF-8 for something else. A text that a
// spreadsheet would run as a formula gets an apostrophe in front. Waypoints follow
// the GPX 1.1 schema, calendars RFC 5545.
//
// What is exported cannot be read back as a kit; that is what backup is for.
package export
