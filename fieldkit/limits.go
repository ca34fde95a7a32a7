package fieldkit

// Limits on what is read from outside. They are far above any real kit and far
// below what would choke a phone.
const (
	MaxFileSize = 64 << 20 // bytes of one kit file, photos not counted
	MaxDepth    = 24       // nesting of one document
	MaxRecords  = 200_000  // records of one collection
	MaxList     = 10_000   // entries of one list inside a record
	MaxString   = 20_000   // bytes of one text
	MaxID       = 80       // bytes of one key
)
