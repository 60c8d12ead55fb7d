#![no_main]

use libfuzzer_sys::{fuzz_mutator, fuzz_target};
use raisedbody_fuzz::{mutate::mutate, pool::Pool, targets};

fuzz_target!(|data: &[u8]| targets::plan(data));
fuzz_mutator!(|data: &mut [u8], size: usize, most: usize, seed: u32| { mutate(data, size, most, seed, Pool::plan()) });
