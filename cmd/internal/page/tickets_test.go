package page

import (
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wordOf is what stands behind an address.
func wordOf(t *testing.T, s *Server, address string) string {
	t.Helper()
	before, once, ok := strings.Cut(address, "#once=")
	require.True(t, ok, address)
	assert.Equal(t, "http://"+s.listens.Addr().String()+"/", before)
	assert.NotContains(t, address, string(s.key))
	return once
}

// fetched asks for the key with a word.
func fetched(s *Server, word string, spoil func(*http.Request)) *httptest.ResponseRecorder {
	r := request(s, http.MethodPost, ticketPath, nil)
	r.Header.Set(keyHeader, word)
	if spoil != nil {
		spoil(r)
	}
	return served(s, r)
}

func opens(t *testing.T, s *Server, word string) {
	t.Helper()
	w := fetched(s, word, nil)
	assert.Equal(t, http.StatusOK, w.Code)
	assert.JSONEq(t, `{"key":"`+string(s.key)+`"}`, w.Body.String())
	assert.Equal(t, "no-store", w.Header().Get("Cache-Control"))
}

func opensNot(t *testing.T, s *Server, word string) {
	t.Helper()
	w := fetched(s, word, nil)
	assert.Equal(t, http.StatusForbidden, w.Code)
	assert.Contains(t, w.Body.String(), "each is good once; open the last one that seamrail printed")
}

// Who reads a terminal, the history of a browser or the command line that it was started
// with finds a word that is used up.
func TestEveryAddressIsGoodOnce(t *testing.T) {
	for name, of := range map[string]func(s *Server) string{
		"printed": (*Server).Address,
		"opened":  (*Server).Opens,
		"a window": func(s *Server) string {
			answer, err := s.giveWindow(struct{}{})
			require.NoError(t, err)
			return s.behind(answer.Once)
		},
	} {
		t.Run(name, func(t *testing.T) {
			s, through := counted(t)
			once := wordOf(t, s, of(s))
			for _, spoil := range hostile {
				refusedUnheard(t, through, fetched(s, once, spoil))
			}
			for _, word := range []string{"", "x", string(s.key), string(newKey()), once[:len(once)-1], once + "x"} {
				refusedUnheard(t, through, fetched(s, word, nil))
			}
			r := request(s, http.MethodGet, "/api/start", nil)
			r.Header.Set(keyHeader, once)
			refusedUnheard(t, through, served(s, r))
			opens(t, s, once)
			opensNot(t, s, once)
			opensNot(t, s, "")
		})
	}
}

// One address at a time waits to be opened: the next is told when it has been.
func TestAnAddressThatWasOpenedIsFollowedByAnother(t *testing.T) {
	s, _ := opened(t)
	var printed []string
	s.printed = func(address string) { printed = append(printed, address) }
	first, browser := s.Address(), s.Opens()
	assert.Equal(t, first, s.Address())
	opens(t, s, wordOf(t, s, browser))
	assert.Empty(t, printed, "the one that is printed still waits")
	opens(t, s, wordOf(t, s, first))
	require.Len(t, printed, 1)
	assert.Equal(t, printed[0], s.Address())
	assert.NotEqual(t, first, printed[0])
	opensNot(t, s, wordOf(t, s, first))
	require.Len(t, printed, 1, "who tries an old one has none printed")
	opens(t, s, wordOf(t, s, printed[0]))
	assert.Len(t, printed, 2)
}

// What a browser is opened with is good for as long as one takes to start, and the last
// of its kind alone is good.
func TestWordsForABrowserEnd(t *testing.T) {
	s, _ := opened(t)
	now := time.Unix(0, 0)
	s.tickets.now = func() time.Time { return now }
	old := wordOf(t, s, s.Opens())
	late := wordOf(t, s, s.Opens())
	printed := wordOf(t, s, s.Address())
	opensNot(t, s, old)
	now = now.Add(openedFor)
	opensNot(t, s, late)
	just := wordOf(t, s, s.Opens())
	now = now.Add(openedFor - 1)
	opens(t, s, just)
	now = now.Add(1000 * time.Hour)
	opens(t, s, printed)
}

// Wrong words are listened to a few times, then none is for a while; a right one begins
// the count anew.
func TestWrongWordsAreTriedAFewTimes(t *testing.T) {
	s, _ := opened(t)
	now := time.Unix(0, 0)
	s.tickets.now = func() time.Time { return now }
	for range wrongTries - 1 {
		opensNot(t, s, string(newKey()))
	}
	opens(t, s, wordOf(t, s, s.Address()))
	for range wrongTries {
		opensNot(t, s, string(newKey()))
	}
	right := wordOf(t, s, s.Address())
	now = now.Add(wrongPause - 1)
	w := fetched(s, right, nil)
	assert.Equal(t, http.StatusForbidden, w.Code)
	assert.Contains(t, w.Body.String(), "none is listened to for some seconds")
	now = now.Add(1)
	opens(t, s, right)
}
