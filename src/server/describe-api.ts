import type { FastifyDynamicSwaggerOptions } from "@fastify/swagger";
import { jsonSchemaTransform } from "fastify-type-provider-zod";

/** How the API is described, from the schemas that its requests are held to: OpenAPI 3.1. */
export const describeApi: FastifyDynamicSwaggerOptions = {
  openapi: {
    openapi: "3.1.0",
    info: {
      title: "athwart",
      version: "1",
      description:
        "What the page asks of the program on this computer. A unit stands in the name of every key; instants are ISO 8601 in UTC. A planning aid; not for navigation.",
      license: { name: "MIT", identifier: "MIT" },
    },
    servers: [{ url: "/" }],
  },
  transform: (given) => {
    const { schema, url } = jsonSchemaTransform(given);
    const form = given.route.config?.form;
    if (form === undefined) return { schema, url };
    const file = { type: "string", contentEncoding: "binary" };
    const properties = Object.fromEntries(form.map((part) => [part, part === "file" ? { type: "array", items: file } : file]));
    return { schema: { ...schema, consumes: ["multipart/form-data"], body: { type: "object", properties, required: [form[0]] } }, url };
  },
};
