package page

import (
	"encoding/base64"
	"maps"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// questions are all that the page may ask with the key.
func questions(t *testing.T) []string {
	t.Helper()
	all := readWire(t).questions
	delete(all, strings.TrimPrefix(ticketPath, apiPath)) // which looks at its word itself
	return slices.Sorted(maps.Keys(all))
}

// hostile are requests that a page from elsewhere, or a name that is made to
// point here, can bring about. Which headers a browser sets by itself is from
// the Fetch and Fetch Metadata standards.
var hostile = map[string]func(r *http.Request){
	"another name for this machine": func(r *http.Request) { r.Host = "elsewhere.example:" + port(r) },
	"the name without the port":     func(r *http.Request) { r.Host = loopback },
	"another port":                  func(r *http.Request) { r.Host = loopback + ":1" },
	"all addresses":                 func(r *http.Request) { r.Host = "0.0.0.0:" + port(r) },
	"no name":                       func(r *http.Request) { r.Host = "" },
	"a page from elsewhere":         func(r *http.Request) { r.Header.Set("Origin", "http://elsewhere.example") },
	"a page of another port":        func(r *http.Request) { r.Header.Set("Origin", "http://"+loopback+":1") },
	"a page by https":               func(r *http.Request) { r.Header.Set("Origin", "https://"+r.Host) },
	"a page without an origin":      func(r *http.Request) { r.Header.Set("Origin", "null") },
	"an empty origin":               func(r *http.Request) { r.Header.Set("Origin", "") },
	"two origins":                   func(r *http.Request) { r.Header.Add("Origin", "http://elsewhere.example") },
	"the other name in the origin":  func(r *http.Request) { r.Header.Set("Origin", "http://localhost:"+port(r)) },
	"from another site":             func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") },
	"from a site beside":            func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "same-site") },
	"a site that is no word":        func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "") },
	"two sites":                     func(r *http.Request) { r.Header.Add("Sec-Fetch-Site", "cross-site") },
}

// keyless are requests of something that does not know the key.
var keyless = map[string]func(r *http.Request, k string){
	"no key":         func(r *http.Request, _ string) { r.Header.Del(keyHeader) },
	"an empty key":   func(r *http.Request, _ string) { r.Header.Set(keyHeader, "") },
	"another key":    func(r *http.Request, _ string) { r.Header.Set(keyHeader, string(newKey())) },
	"half the key":   func(r *http.Request, k string) { r.Header.Set(keyHeader, k[:len(k)/2]) },
	"key in address": func(r *http.Request, k string) { r.Header.Del(keyHeader); r.URL.RawQuery = "k=" + k },
	"key in a cookie": func(r *http.Request, k string) {
		r.Header.Del(keyHeader)
		r.AddCookie(&http.Cookie{Name: keyHeader, Value: k})
	},
}

func port(r *http.Request) string {
	_, p, _ := net.SplitHostPort(r.Host)
	return p
}

func refusedUnheard(t *testing.T, through *int, w *httptest.ResponseRecorder) {
	t.Helper()
	assert.Equal(t, http.StatusForbidden, w.Code)
	assert.Zero(t, *through, "it came through")
	assert.Empty(t, w.Header().Values("Access-Control-Allow-Origin"))
	guarded(t, w)
}

func guarded(t *testing.T, w *httptest.ResponseRecorder) {
	t.Helper()
	for name, value := range headers {
		assert.Equal(t, value, w.Header().Get(name), name)
	}
}

func TestNothingFromElsewhereIsServed(t *testing.T) {
	s, through := counted(t)
	for why, spoil := range hostile {
		t.Run(why, func(t *testing.T) {
			for _, q := range questions(t) {
				r := request(s, http.MethodPost, apiPath+q, map[string]string{})
				spoil(r)
				refusedUnheard(t, through, served(s, r))
			}
			for _, path := range []string{"/", assetAt("joined/main.js"), "/api/start", "/guide/", "/guide/rig", "/none"} {
				r := request(s, http.MethodGet, path, nil)
				spoil(r)
				refusedUnheard(t, through, served(s, r))
			}
		})
	}
}

func TestNothingIsAnsweredWithoutTheKey(t *testing.T) {
	s, through := counted(t)
	for why, spoil := range keyless {
		t.Run(why, func(t *testing.T) {
			for _, q := range questions(t) {
				r := request(s, http.MethodPost, apiPath+q, map[string]string{})
				spoil(r, string(s.key))
				refusedUnheard(t, through, served(s, r))
			}
			r := request(s, http.MethodGet, "/api/start", nil)
			spoil(r, string(s.key))
			refusedUnheard(t, through, served(s, r))
		})
	}
}

// A browser asks before it sends a header of its own to another site.
func TestNobodyElseMaySendTheHeader(t *testing.T) {
	s, through := counted(t)
	r := request(s, http.MethodOptions, "/api/save", nil)
	r.Header.Set("Origin", "http://elsewhere.example")
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	r.Header.Set("Access-Control-Request-Method", "POST")
	r.Header.Set("Access-Control-Request-Headers", keyHeader)
	w := served(s, r)
	refusedUnheard(t, through, w)
	assert.Empty(t, w.Header().Get("Access-Control-Allow-Headers"))
}

// Writing and moving are no matter of a link or a form.
func TestQuestionsAreNotAskedByALink(t *testing.T) {
	s, dir := opened(t)
	for _, q := range questions(t) {
		w := served(s, request(s, http.MethodGet, apiPath+q, nil))
		assert.Contains(t, []int{http.StatusMethodNotAllowed, http.StatusNotFound}, w.Code, q)
		guarded(t, w)
	}
	untouched(t, s, dir)
}

func TestThePageItselfIsServed(t *testing.T) {
	s, _ := opened(t)
	for _, name := range newGuard(s.key, s.listens.Addr(), nil).hosts {
		for _, path := range []string{"/", "/api/start"} {
			r := request(s, http.MethodGet, path, nil)
			r.Host = name
			r.Header.Set("Origin", "http://"+name)
			w := served(s, r)
			assert.Equal(t, http.StatusOK, w.Code, name+path)
			guarded(t, w)
			assert.NotContains(t, w.Body.String(), string(s.key), "the key stays with the address")
		}
	}
	typed := request(s, http.MethodGet, "/", nil) // an address that is opened, not asked for by a page
	typed.Header.Del("Origin")
	typed.Header.Del(keyHeader)
	typed.Header.Set("Sec-Fetch-Site", "none")
	assert.Equal(t, http.StatusOK, served(s, typed).Code)
}

func TestItListensOnThisMachineOnly(t *testing.T) {
	s, _ := opened(t)
	at, ok := s.listens.Addr().(*net.TCPAddr)
	require.True(t, ok)
	assert.True(t, at.IP.IsLoopback())
	assert.Equal(t, loopback, at.IP.String())
}

func TestKeysAreLongAndNew(t *testing.T) {
	seen := map[key]bool{}
	for range 100 {
		k := newKey()
		raw, err := base64.RawURLEncoding.DecodeString(string(k))
		require.NoError(t, err)
		assert.Len(t, raw, 256/8)
		assert.False(t, seen[k])
		seen[k] = true
	}
}

func TestALongQuestionIsRefused(t *testing.T) {
	s, dir := opened(t)
	for _, q := range questions(t) {
		if apiPath+q == filmBytesPath { // which has as many as were announced: TestAFilmThatIsNotAsAnnounced
			continue
		}
		w := posted(s, apiPath+q, map[string]string{"text": strings.Repeat("x", 2*maxBody)})
		assert.Equal(t, http.StatusRequestEntityTooLarge, w.Code, q)
	}
	untouched(t, s, dir)
}

func TestWhatIsNoQuestionIsRefused(t *testing.T) {
	s, dir := opened(t)
	for _, body := range []string{"", "{", "[]", `{"nonsense":1}`, `{"text":""}{}`, "\x00"} {
		r := request(s, http.MethodPost, "/api/plan", nil)
		r.Body = http.NoBody
		if body != "" {
			r = httptest.NewRequest(http.MethodPost, r.URL.String(), strings.NewReader(body))
			r.Header.Set(keyHeader, string(s.key))
		}
		assert.Equal(t, http.StatusBadRequest, served(s, r).Code, "%q", body)
	}
	untouched(t, s, dir)
}

// An answer that a browser took for a page would run what a title says.
func TestAnswersAreEscaped(t *testing.T) {
	s, _ := opened(t)
	w := posted(s, "/api/plan", map[string]string{"text": "shot = \"<script>alert(1)</script>\"\n<img src=x>"})
	assert.Equal(t, http.StatusOK, w.Code)
	assert.Equal(t, "application/json; charset=utf-8", w.Header().Get("Content-Type"))
	assert.NotContains(t, w.Body.String(), "<")
}
