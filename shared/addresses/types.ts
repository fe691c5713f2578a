/** Something about an address that should be asked before a parcel goes there. Never a reason to leave an order out. */
export type AddressDoubt =
  /** nothing but the postcode is known */
  | { readonly about: 'no-address' }
  | { readonly about: 'no-street' }
  /** a street line without a number, in a country whose houses have one */
  | { readonly about: 'no-number'; readonly found: string }
  | { readonly about: 'no-town' }
  /** no state or province, in a country whose addresses name it */
  | { readonly about: 'no-region' }
  /** not as the country writes its postcodes; `forms` as in "NNNN AA" */
  | { readonly about: 'postcode-form'; readonly found: string; readonly forms: readonly string[] }
  /** the postcode lies in another state or province than the address names */
  | { readonly about: 'region-elsewhere'; readonly region: string; readonly found: string; readonly lies: string };
