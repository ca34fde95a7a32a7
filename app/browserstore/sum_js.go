package browserstore

import (
	"context"
	"crypto/sha256"
	"syscall/js"
)

// sumFrom is how many bytes are worth asking the browser for.
const sumFrom = 16 << 10

// Sum is SHA-256 by the browser, of pieces put together; it turns away what is short,
// and everything where the page is not served securely. It waits and must not be called
// from a browser callback.
func Sum(pieces [][]byte) (sum [sha256.Size]byte, ok bool) {
	n := 0
	for _, p := range pieces {
		n += len(p)
	}
	crypto := global("crypto")
	if n < sumFrom || !crypto.Truthy() || !crypto.Get("subtle").Truthy() {
		return sum, false
	}
	all := js.Global().Get("Uint8Array").New(n)
	at := 0
	for _, p := range pieces {
		at += js.CopyBytesToJS(all.Call("subarray", at), p)
	}
	result, err := await(context.Background(), crypto.Get("subtle").Call("digest", "SHA-256", all))
	if err != nil {
		return sum, false
	}
	return sum, js.CopyBytesToGo(sum[:], js.Global().Get("Uint8Array").New(result)) == len(sum)
}
