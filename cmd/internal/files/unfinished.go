package files

import (
	"os"
	"sync"
)

// partial is the set of files that are being written, each under a name of its own.
type partial struct {
	sync.Mutex
	names map[string]bool
}

// unfinished are the files that this process is writing now.
var unfinished = partial{names: map[string]bool{}}

// create creates a file that must not exist.
func (p *partial) create(name string) (*os.File, error) {
	p.Lock()
	defer p.Unlock()
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err == nil {
		p.names[name] = true
	}
	return f, err
}

// rename gives a file that is whole its own name.
func (p *partial) rename(name, to string) error {
	p.Lock()
	defer p.Unlock()
	err := os.Rename(name, to)
	if err == nil {
		delete(p.names, name)
	}
	return err
}

func (p *partial) remove(name string) {
	p.Lock()
	defer p.Unlock()
	os.Remove(name)
	delete(p.names, name)
}

// Abandon removes all files that are not yet whole, and lets nothing be written any more:
// every call of Write waits for ever from now on. The program is to exit then.
func Abandon() {
	unfinished.Lock() // for good
	for name := range unfinished.names {
		os.Remove(name)
	}
}
