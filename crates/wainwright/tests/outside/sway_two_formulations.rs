//! Source of the parameters: truck-trailer example of the open-source multibody package EoM.jl, which accompanies a
//! vehicle dynamics textbook; read. No eigenvalues are published with it, so a second formulation written from Newton
//! and Euler for two free bodies, held together by the ball's force, stands against the four-state model.
//!
//! Tolerance: 1e-9 of the sum of sizes, rounding of a 6×6 elimination.

use wainwright::axle_load::sway::{Tow, Trailer, eigenvalues};

type Matrix = [[f64; 6]; 6];

/// `E ż = A z` for the state (v₁, r₁, v₂, r₂, θ, H): lateral speed and yaw rate of each body in its own frame, angle of
/// the trailer to the tow vehicle, force of the ball on the tow vehicle; left positive. The last row is the joint: the
/// ball has one velocity, `v₁ − d r₁ − V θ = v₂ + e r₂`.
fn descriptor(tow: &Tow, trailer: &Trailer, speed: f64) -> [Matrix; 2] {
    let (a, b, d) = (tow.to_front_m, tow.to_rear_m, tow.to_ball_m);
    let (e, h_t, damper) = (trailer.to_center_m, trailer.to_group_m, trailer.damper_n_m_s_rad);
    let [front, rear, group] = [tow.front_n_rad, tow.rear_n_rad, trailer.tires_n_rad].map(|c| c / speed);
    let mut storage = [[0.0; 6]; 6];
    storage[0][0] = tow.mass_kg;
    storage[1][1] = tow.yaw_inertia_kg_m2;
    storage[2][2] = trailer.mass_kg;
    storage[3][3] = trailer.yaw_inertia_kg_m2;
    storage[4][4] = 1.0;
    let flow = [
        [-front - rear, -a * front + b * rear - tow.mass_kg * speed, 0.0, 0.0, 0.0, 1.0],
        [-a * front + b * rear, -a * a * front - b * b * rear - damper, 0.0, damper, 0.0, -d],
        [0.0, 0.0, -group, h_t * group - trailer.mass_kg * speed, 0.0, -1.0],
        [0.0, damper, h_t * group, -h_t * h_t * group - damper, 0.0, -e],
        [0.0, -1.0, 0.0, 1.0, 0.0, 0.0],
        [1.0, -d, -1.0, -e, -speed, 0.0],
    ];
    [storage, flow]
}

/// `(A − σ E)⁻¹ E`: its eigenvalues are 1/(λ − σ), and 0 where the joint leaves no freedom.
fn inverted([storage, flow]: [Matrix; 2], shift: f64) -> Matrix {
    let mut left = flow;
    for (left, storage) in left.iter_mut().flatten().zip(storage.iter().flatten()) {
        *left -= shift * storage;
    }
    let mut right = storage;
    for i in 0..6 {
        let pivot = (i..6).max_by(|&p, &q| left[p][i].abs().total_cmp(&left[q][i].abs())).unwrap_or(i);
        left.swap(i, pivot);
        right.swap(i, pivot);
        for row in (0..6).filter(|&row| row != i) {
            let factor = left[row][i] / left[i][i];
            for column in 0..6 {
                left[row][column] -= factor * left[i][column];
                right[row][column] -= factor * right[i][column];
            }
        }
    }
    std::array::from_fn(|i| right[i].map(|value| value / left[i][i]))
}

fn product(a: &Matrix, b: &Matrix) -> Matrix {
    std::array::from_fn(|i| std::array::from_fn(|j| (0..6).map(|n| a[i][n] * b[n][j]).sum()))
}

/// Asserts that the first four power sums of 1/(λ − σ) are the traces of the descriptor's powers: they fix all four λ.
fn assert_agree(tow: &Tow, trailer: &Trailer, speed: f64) {
    let roots = eigenvalues(tow, trailer, speed);
    for shift in [4.0, -0.7] {
        let matrix = inverted(descriptor(tow, trailer, speed), shift);
        let inverses = roots.map(|root| {
            let re = root.re - shift;
            let square = re * re + root.im * root.im;
            [re / square, -root.im / square]
        });
        let mut power = matrix;
        let mut powers = inverses;
        for n in 1..=4 {
            let trace: f64 = (0..6).map(|i| power[i][i]).sum();
            let sum: f64 = powers.iter().map(|[re, _]| re).sum();
            let scale: f64 = powers.iter().map(|[re, im]| re.hypot(*im)).sum();
            assert!((trace - sum).abs() < 1e-9 * scale, "power {n} at {speed} m/s: {trace} against {sum}");
            power = product(&power, &matrix);
            powers = std::array::from_fn(|i| {
                let ([a, b], [c, d]) = (powers[i], inverses[i]);
                [a * c - b * d, a * d + b * c]
            });
        }
    }
}

fn example(to_center_m: f64, to_group_m: f64, damper_n_m_s_rad: f64) -> (Tow, Trailer) {
    let tow = Tow {
        mass_kg: 16_975.0 / 9.81,
        yaw_inertia_kg_m2: 3_508.0,
        to_front_m: 1.289,
        to_rear_m: 1.596,
        to_ball_m: 2.7,
        front_n_rad: 80_000.0,
        rear_n_rad: 80_000.0,
    };
    let trailer = Trailer {
        mass_kg: 2_000.0,
        yaw_inertia_kg_m2: 3_000.0,
        to_center_m,
        to_group_m,
        tires_n_rad: 80_000.0,
        damper_n_m_s_rad,
    };
    (tow, trailer)
}

#[test]
fn two_free_bodies_and_a_joint_have_the_same_eigenvalues() {
    for (e, h_t) in [(2.9, 0.1), (2.7, 0.3), (2.5, 0.5)] {
        for damper in [0.0, 1_000.0] {
            let (tow, trailer) = example(e, h_t, damper);
            for speed in [5.0, 10.0, 18.0, 25.0, 40.0] {
                assert_agree(&tow, &trailer, speed);
            }
        }
    }
}

#[test]
fn example_is_just_stable_at_its_demonstration_speed() {
    let (tow, trailer) = example(2.9, 0.1, 0.0);
    let growth = |speed| {
        let roots = eigenvalues(&tow, &trailer, speed);
        roots.iter().map(|r| r.re).fold(f64::MIN, f64::max)
    };
    assert!(growth(18.0) < 0.0 && growth(18.0) > -0.1);
    assert!(growth(19.0) > 0.0);
}
