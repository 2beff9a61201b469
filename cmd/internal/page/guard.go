package page

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base64"
	"net"
	"net/http"
	"slices"
	"strings"

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
	most := int64(maxBody)
	if r.URL.Path == apartPath {
		most *= 2
	}
	if r.URL.Path != filmBytesPath { // which counts them itself
		r.Body = http.MaxBytesReader(w, r.Body, most)
	}
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
		return opensNothing
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
