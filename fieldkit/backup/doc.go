// Package backup writes a kit and its photos into one file and reads it back.
//
//	missing, err := backup.Write(&file, kit, photo, now)   // any io.Writer
//	c, err := backup.Read(file.Bytes(), backup.Default)            // refused whole, or taken whole
//	session.Replace(ctx, "restore", now, newID, c.Kit, c.Photos...)
//
// The file is a zip archive that any computer opens:
//
//	kit.json                 the kit file, as fieldkit/kitfile writes it
//	photos/<sha256>.jpg      photos under the SHA-256 of their bytes
//	manifest.json            format, version, moment, counts, and size and SHA-256
//	                         of every other file
//
// Reading checks everything before it gives anything: names, sizes, checksums, the
// kit itself, and that every photo the kit shows is there. Limits hold off
// archives made to swell. A kit file alone is taken too; it has no photos.
//
// The package keeps nothing, merges nothing and does not look into photos.
package backup
