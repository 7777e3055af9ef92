package main

import (
	"runtime"
	"sync"
)

// inParallel does something for every i from 0 to before n, on all processors, and
// returns the first error in their order.
func inParallel(n int, do func(i int) error) error {
	errs := make([]error, n)
	next := make(chan int)
	var work sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		work.Go(func() {
			for i := range next {
				errs[i] = do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	work.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
