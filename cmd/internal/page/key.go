package page

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
)

// keyBytes is more than anyone can guess: 256 bits.
const keyBytes = 32

// keyHeader carries the key. A page from elsewhere cannot send a header of its
// own without asking first (Fetch standard, CORS preflight), and is refused.
const keyHeader = "Seamrail-Key"

// key is the word that shows that a question comes from the page.
type key string

func newKey() key {
	var b [keyBytes]byte
	_, _ = rand.Read(b[:]) // never fails (package crypto/rand)
	return key(base64.RawURLEncoding.EncodeToString(b[:]))
}

// opens tells whether text is the key, in a time that says nothing of it.
func (k key) opens(text string) bool {
	return subtle.ConstantTimeCompare([]byte(k), []byte(text)) == 1
}
