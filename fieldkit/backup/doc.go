// Package backup writes a kit and its photos into one file and reads it back.
//
//	missing, err := backup.WriteAll(&file, session.Replica(), photos, now, nil)   // any io.Writer
//	c, err := backup.Read(file.Bytes(), backup.Default)            // refused whole, or taken whole
//	session.Restore(ctx, "restore", now, newID, c.Replica(), c.Photos...)
//
// The file is a zip archive that any computer opens:
//
//	kit.json                 the kit file, as fieldkit/kitfile writes it
//	history.json             what merging with another phone's copy needs, as
//	                         fieldkit/merge writes it; since version 1.1
//	photos/<sha256>.jpg      photos under the SHA-256 of their bytes
//	manifest.json            format, version, moment, counts, and size and SHA-256
//	                         of every other file
//
// Reading checks everything before it gives anything: names, sizes, checksums, the
// kit itself, and that every photo the kit shows is there. Limits hold off
// archives made to swell. A kit file alone is taken too; it has no photos and no
// history. Backups of every version ever released are read, for ever.
//
// The package keeps nothing and does not look into photos.
package backup
