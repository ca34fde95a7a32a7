// Package picture says what a photo tells besides its picture, and takes that out.
//
//	bare, err := picture.Bare(jpeg)            // picture only: no place, no device, no remarks
//	at, known := picture.PlaceOf(original)     // where the camera says it stood
//	marked, err := picture.WithPlace(bare, at) // that, and nothing else of what it said
//
// It reads the structure of a JPEG file (ITU-T T.81, annex B) and of the Exif block in
// it (CIPA DC-008, also published as JEITA CP-3451), and never decodes the picture: a
// picture that is damaged inside passes. It knows no other kind of file.
package picture
