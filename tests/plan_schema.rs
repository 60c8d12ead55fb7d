//! The shipped JSON Schema is the one the types generate. `make schema` writes it anew.

use raisedbody::plan::plan_schema;

const SHIPPED: &str = "schema/plan.schema.json";

#[test]
fn shipped_schema_is_the_generated_one() {
    let generated = serde_json::to_string_pretty(plan_schema()).unwrap() + "\n";
    if std::env::var_os("WRITE_SCHEMA").is_some() {
        std::fs::write(SHIPPED, &generated).unwrap();
    }
    assert_eq!(std::fs::read_to_string(SHIPPED).unwrap(), generated, "run: make schema");
}
