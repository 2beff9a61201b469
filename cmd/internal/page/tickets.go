package page

import (
	"net/http"
	"sync"
	"time"
)

// An address of the page has a word behind #, for which the page is given the key once.
// What is printed stays in a terminal, what is opened in the history of a browser, and
// what a browser is opened with in a list of processes that everyone on the machine can
// read: once the page has come up, it opens nothing there.

// opensNothing is said to a page that has no key.
const opensNothing = "this address opens nothing any more: each is good once; open the last one that seamrail printed where it was started, or press Another window in a page that is open"

const (
	// openedFor is how long a browser may take to start and to come up with the page.
	openedFor = 2 * time.Minute
	// windowFor is how long that may be where the browser has the page in front of it.
	windowFor = 20 * time.Second
	// wrongTries is how many wrong words are listened to before it is paused: nobody
	// guesses 256 bits, and nobody need be let try.
	wrongTries = 10
	wrongPause = 10 * time.Second
)

// ticket is a word that is good once, and until a time if there is one.
type ticket struct {
	text  key // "" once it was used
	until time.Time
}

// take tells whether text is the word, and makes it worthless.
func (w *ticket) take(text string, now time.Time) bool {
	ok := w.text != "" && w.text.opens(text) && (w.until.IsZero() || now.Before(w.until))
	if ok {
		*w = ticket{}
	}
	return ok
}

// tickets are those that have been given out. There is one of each kind at a time.
type tickets struct {
	mu                      sync.Mutex
	printed, opened, window ticket
	wrong                   int
	paused                  time.Time // until then none is listened to
	now                     func() time.Time
}

func newTickets(now func() time.Time) *tickets {
	return &tickets{now: now, printed: ticket{text: newKey()}}
}

// at is the word that is printed.
func (w *tickets) at() key {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.printed.text
}

// give makes a word of a kind, good for so long, and the one before it worthless.
func (w *tickets) give(kind *ticket, good time.Duration) key {
	w.mu.Lock()
	defer w.mu.Unlock()
	*kind = ticket{newKey(), w.now().Add(good)}
	return kind.text
}

// use takes a word, and tells whether that was the one that was printed, so that there is
// another now; or why it is not taken.
func (w *tickets) use(text string) (anew bool, why string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	now := w.now()
	switch {
	case now.Before(w.paused):
		return false, "so many wrong addresses were tried that none is listened to for some seconds; try this one again then"
	case w.opened.take(text, now), w.window.take(text, now):
	case w.printed.take(text, now):
		w.printed.text, anew = newKey(), true
	default:
		if w.wrong++; w.wrong >= wrongTries {
			w.wrong, w.paused = 0, now.Add(wrongPause)
		}
		return false, opensNothing
	}
	w.wrong = 0
	return anew, ""
}

// ticketPath is where the key is fetched. It is the one question without it.
const ticketPath = apiPath + "key"

type keyAnswer struct {
	Key key `json:"key"`
}

type onceAnswer struct {
	Once key `json:"once"`
}

// giveKey gives the key for a word.
func (s *Server) giveKey(w http.ResponseWriter, r *http.Request) {
	anew, why := s.tickets.use(r.Header.Get(keyHeader))
	if why != "" {
		refuse(w, http.StatusForbidden, why)
		return
	}
	if anew {
		s.printed(s.Address())
	}
	reply(w, http.StatusOK, keyAnswer{s.key})
}

// giveWindow gives a page a word, by which it opens another window.
func (s *Server) giveWindow(struct{}) (onceAnswer, error) {
	return onceAnswer{s.tickets.give(&s.tickets.window, windowFor)}, nil
}

// Address is where the page is, for a person to open: browsers keep what is behind # to
// themselves (RFC 3986, section 3.5). It is good once; Options.Printed is told the next.
func (s *Server) Address() string { return s.behind(s.tickets.at()) }

// Opens is another address, for a browser that this program opens. It is good once too,
// and not for long.
func (s *Server) Opens() string { return s.behind(s.tickets.give(&s.tickets.opened, openedFor)) }

func (s *Server) behind(word key) string {
	return "http://" + s.listens.Addr().String() + "/#once=" + string(word)
}
