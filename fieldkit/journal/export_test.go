package journal

// SealBody makes a record of any bytes, as a damaged or foreign writer would.
func SealBody(seq uint64, prev Head, body []byte) Record {
	return Record{Seq: seq, Prev: prev.Hash, Hash: chain(prev.Hash, body), Body: body}
}
