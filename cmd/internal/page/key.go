package page

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"net/http"
	"sync"
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

// ticket gives the key away once. It is what a browser is opened with: the
// command line of a program can be read by everyone on the machine, and what
// stands there is worth nothing any more when the page has come up.
type ticket struct {
	mu   sync.Mutex
	word key // "" once it was used
}

// use tells whether text is the ticket, and makes it worthless.
func (t *ticket) use(text string) bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	ok := t.word != "" && t.word.opens(text)
	if ok {
		t.word = ""
	}
	return ok
}

// ticketPath is where the key is fetched. It is the one question without it.
const ticketPath = apiPath + "key"

func (s *Server) giveKey(w http.ResponseWriter, r *http.Request) {
	if !s.ticket.use(r.Header.Get(keyHeader)) {
		refuse(w, http.StatusForbidden, "this address has been opened already; open the one that seamrail printed")
		return
	}
	reply(w, http.StatusOK, map[string]string{"key": string(s.key)})
}
