#![no_main]

use libfuzzer_sys::{fuzz_mutator, fuzz_target};
use raisedbody_fuzz::{mutate::mutate_cells, targets};

fuzz_target!(|data: &[u8]| targets::readings(data));
fuzz_mutator!(|data: &mut [u8], size: usize, most: usize, seed: u32| { mutate_cells(data, size, most, seed) });
