package whole

import (
	"os"
	"sync"
)

// unfinished holds what has been begun and is not yet in place, so that a
// program that is told to stop can tidy up.
var unfinished = struct {
	sync.Mutex
	paths map[string]bool
}{paths: map[string]bool{}}

func begun(path string) {
	unfinished.Lock()
	defer unfinished.Unlock()
	unfinished.paths[path] = true
}

func ended(path string) {
	unfinished.Lock()
	defer unfinished.Unlock()
	delete(unfinished.paths, path)
}

// Abandon removes whatever is half written, for a program that is about to
// exit. No write begins or ends after it: it never lets go.
func Abandon() {
	unfinished.Lock()
	for path := range unfinished.paths {
		_ = os.RemoveAll(path)
	}
}
