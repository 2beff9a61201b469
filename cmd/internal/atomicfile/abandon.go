package atomicfile

import "sync"

// unfinished holds what has been begun and is not yet in place, so that a program
// that is told to stop can tidy up. Whatever is begun, put in place or given up is
// so while it is locked: a signal finds it before or after, never amid it.
var unfinished = struct {
	sync.Mutex
	drop map[string]func()
}{drop: map[string]func(){}}

// began runs begin, which returns the path it has made and how to take it away
// again.
func began(begin func() (string, func(), error)) (func(), error) {
	unfinished.Lock()
	defer unfinished.Unlock()
	path, drop, err := begin()
	if err != nil {
		return func() {}, err
	}
	unfinished.drop[path] = drop
	return func() {
		unfinished.Lock()
		defer unfinished.Unlock()
		if drop, ok := unfinished.drop[path]; ok {
			delete(unfinished.drop, path)
			drop()
		}
	}, nil
}

// inOneGo runs what puts something in place.
func inOneGo(put func() error) error {
	unfinished.Lock()
	defer unfinished.Unlock()
	return put()
}

// Abandon removes whatever is half written, for a program that is about to exit.
// No write begins or ends after it: it never lets go.
func Abandon() {
	unfinished.Lock()
	for _, drop := range unfinished.drop {
		drop()
	}
}
