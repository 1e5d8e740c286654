// @ts-check
export {};
