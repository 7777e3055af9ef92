package main

import (
	"context"
	"runtime"
	"sync"
)

// sideBySide does the work of 0 to before n, twice as many at once as there are cores,
// since each waits for the disk now and then. When ctx is done it begins no more.
func sideBySide(ctx context.Context, n int, work func(i int)) {
	next := make(chan int)
	var workers sync.WaitGroup
	for range min(2*runtime.GOMAXPROCS(0), n) {
		workers.Go(func() {
			for i := range next {
				work(i)
			}
		})
	}
	for i := 0; i < n && ctx.Err() == nil; i++ {
		next <- i
	}
	close(next)
	workers.Wait()
}
