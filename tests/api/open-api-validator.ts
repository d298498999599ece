/** The OpenAPI schema of the OpenAPI Initiative, as the package of @seriousme carries it. */
import { Validator } from "@seriousme/openapi-schema-validator";

export async function validate(
  document: Record<string, unknown>,
): Promise<{ readonly valid: boolean; readonly version: string; readonly errors?: unknown }> {
  const validator = new Validator();
  const { valid, errors } = await validator.validate(structuredClone(document));
  return { valid, version: String(validator.version), ...(valid ? {} : { errors }) };
}
