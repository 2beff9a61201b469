package page

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"net"
	"net/http"
	"slices"
	"strings"
	"sync"

	"seamrail/cmd/internal/deadman"
)

// policy lets the page run what this program serves and nothing else (W3C
// Content Security Policy Level 3).
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; " +
	"connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// headers go with every answer.
var headers = map[string]string{
	"Content-Security-Policy":      policy,
	"X-Content-Type-Options":       "nosniff",
	"Referrer-Policy":              "no-referrer",
	"Cross-Origin-Opener-Policy":   "same-origin",
	"Cross-Origin-Resource-Policy": "same-origin",
	"Cache-Control":                "no-store",
}

// maxBody is how many bytes a question may have: no shot is written by hand
// that is longer.
const maxBody = 1 << 20

// guard stands before everything that is served. hosts are the names that this
// machine goes by in the browser.
type guard struct {
	key   key
	hosts []string
	next  http.Handler
}

// newGuard guards what listens at an address of this machine.
func newGuard(k key, at net.Addr, next http.Handler) guard {
	_, port, _ := net.SplitHostPort(at.String())
	return guard{key: k, hosts: []string{net.JoinHostPort(loopback, port), net.JoinHostPort("localhost", port)}, next: next}
}

// ServeHTTP refuses what does not come from the page.
func (g guard) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	for name, value := range headers {
		w.Header().Set(name, value)
	}
	if why := g.refuses(r); why != "" {
		refuse(w, http.StatusForbidden, why)
		return
	}
	r.Body = http.MaxBytesReader(w, r.Body, maxBody)
	defer deadman.Answered()
	g.next.ServeHTTP(w, r)
}

// refuses says why a request is not served, or nothing.
//
// A name that points here from elsewhere shows in Host; a page from elsewhere in
// Origin, or in Sec-Fetch-Site, which browsers send with every request and no
// script can change (W3C Fetch Metadata).
func (g guard) refuses(r *http.Request) string {
	origin := r.Header.Values("Origin")
	switch {
	case !slices.Contains(g.hosts, r.Host):
		return "this is not the address of the page"
	case len(origin) > 0 && (len(origin) > 1 || origin[0] != "http://"+r.Host):
		return "only the page itself may ask"
	case !ownSite(r.Header.Values("Sec-Fetch-Site")):
		return "only the page itself may ask"
	case !strings.HasPrefix(r.URL.Path, apiPath) || r.URL.Path == ticketPath:
		return ""
	case !g.key.opens(r.Header.Get(keyHeader)):
		return "this needs the key that is in the address which seamrail printed; open that"
	}
	return ""
}

func ownSite(site []string) bool {
	return len(site) == 0 || len(site) == 1 && (site[0] == "none" || site[0] == "same-origin")
}

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
